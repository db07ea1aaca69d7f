#pragma once

// The perfect thin lens: where it focuses, and how large the blur circle of a point is.
//
// Lengths at the camera are millimetres (_mm); distances to people are metres (_m) along the
// optical axis from the lens. Nothing here reads files or draws.

#include <optional>

namespace backrow::optics {

/// What is engraved on the lens and set on its rings, as a photographer says it.
struct LensSettings {
    double focal_length_mm;
    double f_number;
    double focus_m;  ///< Axial distance from the lens to the plane of focus.
};

/// A lens that can form an image: all values finite, f_number > 0, 0 < focal length < focus.
/// Only thin_lens() makes one, so the functions below need no checks and cannot fail.
class ThinLens {
public:
    [[nodiscard]] double focal_length_mm() const noexcept { return settings_.focal_length_mm; }
    [[nodiscard]] double f_number() const noexcept { return settings_.f_number; }
    [[nodiscard]] double focus_m() const noexcept { return settings_.focus_m; }
    [[nodiscard]] const LensSettings& settings() const noexcept { return settings_; }

private:
    friend std::optional<ThinLens> thin_lens(const LensSettings&) noexcept;
    explicit ThinLens(const LensSettings& settings) noexcept : settings_{settings} {}
    LensSettings settings_;
};

/// The lens, or nothing where no image can form (focused inside its focal length, f/0, NaN).
[[nodiscard]] std::optional<ThinLens> thin_lens(const LensSettings& settings) noexcept;

/// Diameter of the opening (entrance pupil), D = f/N, millimetres.
[[nodiscard]] double aperture_diameter_mm(const ThinLens& lens) noexcept;

/// Distance from the lens to the sensor, v = f s/(s − f), millimetres.
[[nodiscard]] double image_distance_mm(const ThinLens& lens) noexcept;

/// Magnification in the plane of focus, m = f/(s − f).
[[nodiscard]] double magnification(const ThinLens& lens) noexcept;

/// Diameter of the blur circle on the sensor of a point on the optical axis.
///
///     c(d) = f² |d − s| / (N d (s − f))
///
/// axial_m   distance d of the point along the axis, metres; > 0, may be infinite
/// returns   millimetres, ≥ 0; exactly 0 in the plane of focus; NaN where axial_m ≤ 0
/// holds     for the perfect lens; no diffraction, no defects (lens_profile.h)
/// source    [JACOBSON] section 4
[[nodiscard]] double blur_diameter_mm(const ThinLens& lens, double axial_m) noexcept;

}  // namespace backrow::optics
