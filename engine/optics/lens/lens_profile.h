#pragma once

// What a real lens adds to the perfect one, as it would stand on its data sheet. What its errors do
// to a ray is in ray_error.h, to the spot of a point in spot.h, to the light in light_loss.h.
//
// Errors are of vergence, in dioptres. Each is given where it is largest: at the edge of the widest
// opening, in the corner of the picture; how it falls from there is its third-order law [SMITH]
// ch. 6.

#include <algorithm>
#include <array>
#include <limits>

namespace backrow::optics {

/// Nobody beyond the corner is in the picture, but their blur reaches in, and terms of third order
/// mean nothing far outside the circle that the lens was made for: from this h² on, h the image
/// height, 0 centre … 1 corner, no error grows any further.
inline constexpr double most_image_height_squared = 2.0;

struct LensProfile {
    double widest_f_number = 1.0;      ///< N₀ > 0.
    double smallest_f_number = 0.0;    ///< 0: nobody said.
    double focal_length_mm = 0.0;      ///< Of the lens that was measured; 0: nobody said.
    double spherical_dpt = 0.0;        ///< Spherical aberration; > 0 focuses the edge nearer.
    double field_curvature_dpt = 0.0;  ///< Of the medial field; > 0 focuses the corner nearer.
    double astigmatism_dpt = 0.0;  ///< By how much rays along the radius focus nearer than others.
    double coma_dpt = 0.0;         ///< > 0: tails point out of the picture.
    /// Red, green and blue, by how much each focuses nearer; what is focused and measured is green.
    std::array<double, 3> longitudinal_colour_dpt{};
    double vignetting = 0.0;  ///< How far apart the rims before and behind the opening are seen in
                              ///< the corner, in their radii.
    double natural_falloff = 0.0;   ///< Share of the cos⁴ law, 0 … 1.
    double focus_offset_dpt = 0.0;  ///< By how much nearer than it means to the camera focuses.
    int blades = 0;                 ///< 0: a round opening at every f-number.
    double roundness = 0.0;  ///< Of the blades a stop down and beyond: 0 straight … 1 round.

    bool operator==(const LensProfile&) const = default;
};

/// The narrowest opening that it closes to; infinite where nobody said.
[[nodiscard]] inline double narrowest_f_number(const LensProfile& profile) noexcept {
    return profile.smallest_f_number > 0 ? profile.smallest_f_number
                                         : std::numeric_limits<double>::infinity();
}

/// Whether green light from a point in focus does not meet in one: what is fitted from test frames.
[[nodiscard]] bool has_errors(const LensProfile& profile) noexcept;

/// Whether it neither bends nor stops a ray that the perfect lens would not.
[[nodiscard]] bool is_perfect(const LensProfile& profile) noexcept;

/// The profile for a lens of this focal length. Whose own is not known keeps its dioptres. Any
/// other is taken for the same lens enlarged: all that lands on the sensor grows with the focal
/// length, and as blur is f²/N times the error, errors shrink with it.
[[nodiscard]] LensProfile at_focal_length(const LensProfile& profile,
                                          double focal_length_mm) noexcept;

/// Radius of the present opening, in radii of the widest.
[[nodiscard]] inline double used_radius(const LensProfile& profile, double f_number) noexcept {
    return profile.widest_f_number / f_number;
}

/// h² as the errors count it.
[[nodiscard]] inline double counted_height_squared(double image_height) noexcept {
    return std::min(image_height * image_height, most_image_height_squared);
}

/// What the whole opening has in common: field curvature at this image height, the camera's offset,
/// and that of green.
[[nodiscard]] inline double common_dpt(const LensProfile& profile, double image_height) noexcept {
    return profile.field_curvature_dpt * counted_height_squared(image_height) +
           profile.focus_offset_dpt + profile.longitudinal_colour_dpt[1];
}

/// Spherical aberration at the edge of the present opening.
[[nodiscard]] inline double spherical_at_edge_dpt(const LensProfile& profile,
                                                  double f_number) noexcept {
    const double used = used_radius(profile, f_number);
    return profile.spherical_dpt * used * used;
}

/// By how much red, green or blue (0, 1, 2) focuses nearer than green.
[[nodiscard]] inline double colour_shift_dpt(const LensProfile& profile, int channel) noexcept {
    return profile.longitudinal_colour_dpt[static_cast<std::size_t>(channel)] -
           profile.longitudinal_colour_dpt[1];
}

}  // namespace backrow::optics
