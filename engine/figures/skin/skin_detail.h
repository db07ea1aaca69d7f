#pragma once

// The skin detail of people seen large: pores, fine lines, freckles, strands of hair, fibres of the
// iris. Geometry of that size is impossible, so it is a picture that multiplies the colours of the
// vertices. One sheet holds the parts of a person beside each other:
//
//     the face, unrolled from its front    256 × 256 mm
//     skin of no particular place          256 × 64 mm
//     hair, its strands running down       256 × 96 mm
//     an eye, the pupil in its middle
//
// Where a part has none (cloth, teeth), its vertices lie at (0, 0), where the sheet is white.

#include "figures/appearance.h"

#include "base/image.h"

#include <glm/vec2.hpp>

#include <compare>

namespace backrow::figures {

enum class SkinAge { child, young, grown, old };

/// What sheets differ in; few, so that people share them.
struct SkinDetailKind {
    SkinAge age = SkinAge::young;
    bool freckled = false;
    bool shaven = false;
    bool curled = false;  ///< The hair.
    auto operator<=>(const SkinDetailKind&) const = default;
};

[[nodiscard]] SkinDetailKind skin_detail_kind(const Appearance& look, double age_years);

/// Half: a quarter of the memory, for heads whose pixels are larger than the texels of that.
enum class SheetSize { whole, half };

/// sRGB. The same kind gives the same sheet, on every machine. Painted when first asked for, on all
/// cores, and kept: a stage is often built again. Of two cores the first takes a tenth of a second
/// and others of its size a hundredth. Any thread may ask.
[[nodiscard]] const Image<Rgba8>& skin_detail_sheet(const SkinDetailKind& kind,
                                                    SheetSize size = SheetSize::whole);

/// Parts of the whole sheet in texels; four of them make a millimetre.
namespace sheet {
inline constexpr int width = 1024;
inline constexpr int face_rows = 1024;
inline constexpr int skin_row = face_rows, skin_rows = 256;
inline constexpr int hair_row = skin_row + skin_rows, hair_rows = 384;
inline constexpr int eye_row = hair_row + hair_rows, eye_rows = 192, eye_columns = 256;
inline constexpr int height = eye_row + eye_rows;
inline constexpr double per_mm = 4;
inline constexpr double top_mm = 96;       ///< The face's first row, above the pupils.
inline constexpr double iris_texels = 48;  ///< Radius of the iris.
}  // namespace sheet

/// Means of the sheet's parts, linear.
inline constexpr double skin_detail_mean = 0.86;
inline constexpr double hair_detail_mean = 0.68;

/// Where a point of the face lies on the sheet. plane_mm: as unrolled in head_template.cpp. What is
/// beyond the sheet's edge, behind the ears, is folded back.
[[nodiscard]] glm::vec2 face_uv(const glm::dvec2& plane_mm);

/// Likewise for skin elsewhere and for hair, by millimetres across and along.
[[nodiscard]] glm::vec2 skin_uv(double across_mm, double along_mm);
[[nodiscard]] glm::vec2 hair_uv(double across_mm, double along_mm);

/// Likewise for an eye, in radii of the iris from the pupil, + towards the temple and up.
[[nodiscard]] glm::vec2 eye_uv(const glm::dvec2& off_irises);

/// The mean of the part of the sheet in which uv lies: colours are divided by it, so that somebody
/// with it is as bright as without.
[[nodiscard]] double skin_detail_mean_at(const glm::vec2& uv);

}  // namespace backrow::figures
