#include "figures/skin/skin_detail.h"

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

/// To and fro between 0 and length, so that what is laid out further than the sheet reaches stays
/// continuous.
double folded(double at, double length) {
    const double t = std::abs(std::fmod(at, 2 * length));
    return t < length ? t : 2 * length - t;
}

glm::vec2 uv_of(double column, double row) {
    return {static_cast<float>(column / sheet::width), static_cast<float>(row / sheet::height)};
}

/// Rows next to another part are left out: pictures of the sheet on a smaller scale mix them.
constexpr double margin_texels = 8;

}  // namespace

SkinDetailKind skin_detail_kind(const Appearance& look, double age_years) {
    SkinDetailKind kind;
    kind.age = age_years < 13   ? SkinAge::child
               : age_years < 33 ? SkinAge::young
               : age_years < 56 ? SkinAge::grown
                                : SkinAge::old;
    kind.freckled = look.face.freckles > 0.25;
    kind.shaven = !look.feminine && !look.beard && age_years > 17;
    kind.curled = look.hair_style == HairStyle::curls;
    return kind;
}

glm::vec2 face_uv(const glm::dvec2& plane_mm) {
    const double across = folded(plane_mm.x * sheet::per_mm + sheet::width / 2.0, sheet::width);
    const double down = (sheet::top_mm - plane_mm.y) * sheet::per_mm;
    const double height = sheet::face_rows - 2 * margin_texels;
    return uv_of(across, margin_texels + folded(down - margin_texels, height));
}

glm::vec2 skin_uv(double across_mm, double along_mm) {
    const double height = sheet::skin_rows - 2 * margin_texels;
    return uv_of(across_mm * sheet::per_mm,
                 sheet::skin_row + margin_texels + folded(along_mm * sheet::per_mm, height));
}

glm::vec2 hair_uv(double across_mm, double along_mm) {
    const double height = sheet::hair_rows - 2 * margin_texels;
    return uv_of(across_mm * sheet::per_mm,
                 sheet::hair_row + margin_texels + folded(along_mm * sheet::per_mm, height));
}

glm::vec2 eye_uv(const glm::dvec2& off_irises) {
    const double half_width = sheet::eye_columns / 2.0, half_height = sheet::eye_rows / 2.0;
    const double x = std::clamp(off_irises.x * sheet::iris_texels, 2 - half_width, half_width - 2);
    const double y =
        std::clamp(off_irises.y * sheet::iris_texels, 2 - half_height, half_height - 2);
    return uv_of(half_width + x, sheet::eye_row + half_height - y);
}

double skin_detail_mean_at(const glm::vec2& uv) {
    const double row = static_cast<double>(uv.y) * sheet::height;
    if (uv == glm::vec2{0} || row >= sheet::eye_row)
        return 1.0;
    return row < sheet::hair_row ? skin_detail_mean : hair_detail_mean;
}

}  // namespace backrow::figures
