#include "figures/skin/skin_relief.h"

#include "figures/head/face_chart.h"
#include "figures/head/face_lines.h"
#include "figures/head/head_form.h"
#include "figures/head/head_frame.h"
#include "figures/skin/noise.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <future>
#include <tuple>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;

constexpr double sheet_mm = sheet::width / sheet::per_mm;

/// How strongly skin of an age shows what it has; 1 that of a grown face, by eye.
struct SkinStrength {
    double relief, pores, blotches, lines;
};
SkinStrength strength_of(SkinAge age) {
    switch (age) {
    case SkinAge::child:
        return {0.55, 0.15, 0.8, 0.0};
    case SkinAge::young:
        return {0.85, 0.75, 0.8, 0.10};
    case SkinAge::grown:
        return {1.05, 1.0, 1.0, 0.45};
    case SkinAge::old:
        break;
    }
    return {1.45, 1.1, 1.5, 1.0};
}

/// Height of the skin's own relief: a net of fine furrows, and softer lumps under it.
float relief_at(const dvec2& laid_mm) {
    const auto x = static_cast<float>(laid_mm.x), y = static_cast<float>(laid_mm.y);
    const auto noise = [&](float cells_mm, int k) {
        const int across = static_cast<int>(std::lround(sheet_mm / static_cast<double>(cells_mm)));
        const float scale = static_cast<float>(across) / static_cast<float>(sheet_mm);
        return cell_noise(x * scale, y * scale, k, across);
    };
    const float net = -0.7f * std::abs(noise(1.2f, 1)) - 0.9f * std::abs(noise(0.7f, 2));
    return 0.9f * net + 0.65f * noise(0.42f, 3) + 0.22f * noise(2.6f, 4);
}

/// Its brightness under the sky, around 0: what faces up is bright, furrows are dark. above: the
/// relief of the texel over it.
float lit_relief(float here, float above) {
    return 0.070f * (here + 0.7f) - 0.10f * (here - above);
}

/// Where pores, freckles and stubble are, 0 … 1.
struct Places {
    double pores, freckles, stubble;
};
Places places_at(const dvec3& p) {
    const double lips = lips_at(p);
    const double x = std::abs(p.x), y = p.y;
    const double front = glm::smoothstep(0.0, 35.0, p.z) * (1 - lips);
    const double lids = hill((x - model::pupil_x) / 19.0) * hill(y / 13.0);
    const double nose = hill(x / 17.0) * hill((y + 34) / 20.0);
    const double cheek = hill((x - 28) / 16.0) * hill((y + 36) / 18.0);
    const double forehead = glm::smoothstep(20.0, 32.0, y);
    const double bare = 1 - 0.9 * lids;
    const double moustache = hill((y + 58) / 6.0) * hill(x / 26.0);
    return {front * bare * (0.35 + 0.75 * nose + 0.55 * cheek + 0.15 * forehead),
            front * (1 - 0.7 * lids) *
                std::min(1.0, 0.9 * hill((x - 22) / 26.0) * hill((y + 26) / 20.0) + 0.9 * nose +
                                  0.25 * forehead * (1 - glm::smoothstep(50.0, 75.0, y))),
            glm::smoothstep(-10.0, 20.0, p.z) * (1 - lips) *
                std::max(moustache, glm::smoothstep(-50.0, -72.0, y) *
                                        (1 - 0.5 * hill((x - 28) / 9.0) * hill((y + 62) / 9.0)))};
}

/// What sheets of all kinds have in common, by texel of the face.
struct FaceTexel {
    float relief;  ///< Of the skin, as relief_at().
    float crease;  ///< That of the lips' creases, 0 off the lips.
    float lips;
    float line;
    float blood;
};

FaceTexel face_texel(int column, int row) {
    const ChartPoint point = chart_point(column + 0.5, row + 0.5);
    const dvec3& p = point.at_mm;
    const auto x = static_cast<float>(point.laid_mm.x), y = static_cast<float>(point.laid_mm.y);
    const auto noise = [&](float per_mm, int k) {
        return cell_noise(x * per_mm, y * per_mm, k, 4096);
    };
    FaceTexel texel{};
    texel.lips = static_cast<float>(lips_at(p));
    texel.relief = relief_at(point.laid_mm);
    if (texel.lips > 0)
        texel.crease = texel.lips * static_cast<float>(0.45 - lip_crease(p));
    if (p.z > 0)
        texel.line = static_cast<float>(line_depth(p, static_cast<double>(noise(0.12f, 31))));
    texel.blood = 0.5f * noise(0.11f, 41) + 0.35f * noise(0.30f, 42) + 0.25f * noise(0.75f, 43);
    return texel;
}

const std::vector<FaceTexel>& face_texels() {
    static const std::vector<FaceTexel> made = [] {
        std::vector<FaceTexel> texels(static_cast<std::size_t>(sheet::width * sheet::face_rows));
        const auto fill = [&](int from, int to) {
            for (int r = from; r < to; ++r)
                for (int c = 0; c < sheet::width; ++c)
                    texels[static_cast<std::size_t>(r * sheet::width + c)] = face_texel(c, r);
        };
        constexpr int parts = 8, rows = sheet::face_rows / parts;
        std::array<std::future<void>, parts> others;
        for (int i = 0; i < parts; ++i)
            others[static_cast<std::size_t>(i)] =
                std::async(std::launch::async, fill, i * rows, (i + 1) * rows);
        for (std::future<void>& other : others)
            other.get();
        return texels;
    }();
    return made;
}

/// Multiplies a soft round dot onto the face.
void dot(Image<Rgb>& onto, double column, double row, double radius_mm, const dvec3& tint,
         const dvec2& stretch) {
    const dvec2 per_radius = stretch / (sheet::per_mm * radius_mm);
    const int across = static_cast<int>(2 / per_radius.x) + 1;
    const int down = static_cast<int>(2 / per_radius.y) + 1;
    const int c0 = static_cast<int>(column), r0 = static_cast<int>(row);
    for (int r = std::max(0, r0 - down); r <= std::min(sheet::face_rows - 1, r0 + down); ++r)
        for (int c = std::max(0, c0 - across); c <= std::min(sheet::width - 1, c0 + across); ++c) {
            const double x = (c + 0.5 - column) * per_radius.x;
            const double y = (r + 0.5 - row) * per_radius.y;
            // Nearly the hill of head_form.h, and 0 from two radii on.
            const double left = std::max(0.0, 1 - (x * x + y * y) / 4);
            const double t = left * left * left * left;
            Rgb& texel = onto.at(c, r);
            texel.r *= static_cast<float>(1 - (1 - tint.r) * t);
            texel.g *= static_cast<float>(1 - (1 - tint.g) * t);
            texel.b *= static_cast<float>(1 - (1 - tint.b) * t);
        }
}

/// Calls dot(column, row, point of the chart, size, depth), the last two 0 … 1, once in each cell
/// of the face, at a place shifted by chance; k tells layers apart.
template <class Dot>
void strew(double cell_mm, int k, const Dot& dot) {
    const double cell_texels = cell_mm * sheet::per_mm;
    for (int y = 0; y < sheet::face_rows / cell_texels; ++y)
        for (int x = 0; x < sheet::width / cell_texels; ++x) {
            const auto share = [&](int what) {
                return static_cast<double>(cell_share(x, y, k + what));
            };
            const double column = (x + share(0)) * cell_texels, row = (y + share(1)) * cell_texels;
            dot(column, row, chart_point(column, row), share(2), share(3));
        }
}

const dvec3 pore_tint{0.70, 0.58, 0.52};
const dvec3 freckle_tint{0.66, 0.47, 0.36};
const dvec3 stubble_tint{0.42, 0.42, 0.46};

dvec3 mixed(const dvec3& tint, double share) {
    return glm::mix(dvec3{1}, tint, std::clamp(share, 0.0, 1.0));
}

void paint_freckles(Image<Rgb>& onto) {
    for (const auto& [cell_mm, least_mm, k] : {std::tuple{3.4, 0.50, 200}, {2.1, 0.32, 210}})
        strew(cell_mm, k,
              [&, least_mm = least_mm](double column, double row, const ChartPoint& at, double size,
                                       double depth) {
                  const double much = places_at(at.at_mm).freckles;
                  if (depth < 0.75 * much)
                      dot(onto, column, row, least_mm + 0.5 * size * size,
                          mixed(freckle_tint, 0.24 + 0.42 * size), at.stretch);
              });
}

void paint_face(const SkinDetailKind& kind, const SkinStrength& strong, Image<Rgb>& onto) {
    const std::vector<FaceTexel>& texels = face_texels();
    const auto relief = static_cast<float>(strong.relief), lines = static_cast<float>(strong.lines);
    const auto blotches = static_cast<float>(strong.blotches);
    const auto texel_at = [&](int c, int r) -> const FaceTexel& {
        return texels[static_cast<std::size_t>(r * sheet::width + c)];
    };
    for (int r = 0; r < sheet::face_rows; ++r)
        for (int c = 0; c < sheet::width; ++c) {
            const FaceTexel& t = texel_at(c, r);
            const float lit = lit_relief(t.relief, texel_at(c, std::max(0, r - 1)).relief);
            const float light = (1 + relief * (1 - 0.8f * t.lips) * lit + 0.42f * t.crease) *
                                (1 - 0.36f * lines * t.line);
            const float blood = blotches * t.blood;
            onto.at(c, r) = {light * (1 - 0.026f * blood), light * (1 - 0.082f * blood),
                             light * (1 - 0.086f * blood)};
        }
    strew(0.95, 100,
          [&](double column, double row, const ChartPoint& at, double size, double depth) {
              const double much = places_at(at.at_mm).pores * strong.pores;
              if (much > 0.05)
                  dot(onto, column, row, 0.17 + 0.15 * size * std::min(1.0, much),
                      mixed(pore_tint, much * (0.35 + 0.9 * depth)), at.stretch);
          });
    if (kind.freckled)
        paint_freckles(onto);
    if (kind.shaven)
        strew(0.72, 300,
              [&](double column, double row, const ChartPoint& at, double size, double depth) {
                  if (at.at_mm.y > -42)
                      return;
                  const double much = places_at(at.at_mm).stubble;
                  if (depth < much)
                      dot(onto, column, row, 0.14 + 0.08 * size,
                          mixed(stubble_tint, (0.25 + 0.5 * size) * much), at.stretch);
              });
    if (kind.age == SkinAge::old)  // Spots of age.
        strew(13.0, 400,
              [&](double column, double row, const ChartPoint& at, double size, double depth) {
                  if (depth < 0.3 && lips_at(at.at_mm) == 0)
                      dot(onto, column, row, 0.9 + 1.6 * size, mixed(freckle_tint, 0.25),
                          at.stretch);
              });
}

void paint_plain(const SkinStrength& strong, Image<Rgb>& onto) {
    for (int r = 0; r < sheet::skin_rows; ++r)
        for (int c = 0; c < sheet::width; ++c) {
            const dvec2 mm{c / sheet::per_mm, r / sheet::per_mm};
            const auto x = static_cast<float>(mm.x), y = static_cast<float>(mm.y);
            const float lit =
                lit_relief(relief_at(mm), relief_at({mm.x, mm.y - 1 / sheet::per_mm}));
            const float light = 1 + static_cast<float>(strong.relief) * lit;
            const float blood = static_cast<float>(strong.blotches) *
                                (0.5f * cell_noise(x * 0.125f, y * 0.125f, 51, 32) +
                                 0.4f * cell_noise(x * 0.5f, y * 0.5f, 52, 128));
            onto.at(c, sheet::skin_row + r) = {light * (1 - 0.022f * blood),
                                               light * (1 - 0.060f * blood),
                                               light * (1 - 0.064f * blood)};
        }
}

/// Brings the mean of some rows to that of skin_detail.h.
void level(Image<Rgb>& onto, int first_row, int rows) {
    double sum = 0;
    for (int r = first_row; r < first_row + rows; ++r)
        for (int c = 0; c < sheet::width; ++c)
            sum += static_cast<double>(onto.at(c, r).g);
    const auto gain = static_cast<float>(skin_detail_mean * rows * sheet::width / sum);
    for (int r = first_row; r < first_row + rows; ++r)
        for (int c = 0; c < sheet::width; ++c) {
            Rgb& texel = onto.at(c, r);
            texel = {texel.r * gain, texel.g * gain, texel.b * gain};
        }
}

}  // namespace

void paint_skin(const SkinDetailKind& kind, Image<Rgb>& onto) {
    const SkinStrength strong = strength_of(kind.age);
    paint_face(kind, strong, onto);
    paint_plain(strong, onto);
    level(onto, 0, sheet::face_rows);
    level(onto, sheet::skin_row, sheet::skin_rows);
}

}  // namespace backrow::figures
