#pragma once

// The lens: one value for everybody who asks what it does to a point. A thin lens, with what a real
// one adds to it (lens_profile.h), focused and stopped down. What it makes of a point says spot.h,
// how large its blur circle is blur_circle.h, how deep the zone is in which it holds sharp_zone.h,
// where to focus focus_span.h.
//
// Lengths at the camera are millimetres (_mm); distances to people are metres (_m) along the
// optical axis from the lens. Nothing here reads files or draws.

#include "optics/lens/lens_profile.h"
#include "optics/lens/opening_shape.h"

#include <optional>

namespace backrow::optics {

/// Half the diagonal of 36 × 24 mm: √(18² + 12²).
inline constexpr double full_frame_half_diagonal_mm = 21.633307652783937;

/// What is engraved on the lens and set on its rings, as a photographer says it.
struct LensSettings {
    double focal_length_mm = 50;
    double f_number = 1.2;
    double focus_m = 4.5;   ///< Axial distance from the lens to the plane of focus.
    LensProfile profile{};  ///< All zero for the perfect lens.
    int blades = 0;         ///< Straight ones, in place of the profile's; 0: as the profile has it.

    bool operator==(const LensSettings&) const = default;
};

/// The outline of its opening. Blades that a profile tells of are drawn back behind the glass at
/// the widest opening, which is round, and have their own roundness from a stop down on.
[[nodiscard]] Opening opening_of(const LensSettings& settings) noexcept;

/// A lens that can form an image: all values finite, f_number > 0, 0 < focal length < focus, and a
/// picture of some size. Only focused_lens() makes one, so the functions that take it need no
/// checks and cannot fail.
class Lens {
public:
    [[nodiscard]] double focal_length_mm() const noexcept { return settings_.focal_length_mm; }
    [[nodiscard]] double f_number() const noexcept { return settings_.f_number; }
    [[nodiscard]] double focus_m() const noexcept { return settings_.focus_m; }
    [[nodiscard]] const LensProfile& profile() const noexcept { return settings_.profile; }
    [[nodiscard]] const OpeningShape& opening() const noexcept { return opening_; }
    [[nodiscard]] const LensSettings& settings() const noexcept { return settings_; }
    /// From the middle of the picture to its corner, on the sensor.
    [[nodiscard]] double half_diagonal_mm() const noexcept { return half_diagonal_mm_; }

    /// The same lens with its rings turned; nothing where no image can form so.
    [[nodiscard]] std::optional<Lens> focused_at(double focus_m) const noexcept;
    [[nodiscard]] std::optional<Lens> stopped_to(double f_number) const noexcept;

private:
    friend std::optional<Lens> focused_lens(const LensSettings&, double) noexcept;
    Lens(const LensSettings& settings, double half_diagonal_mm) noexcept
        : settings_{settings}, opening_{opening_shape(opening_of(settings))},
          half_diagonal_mm_{half_diagonal_mm} {}
    LensSettings settings_;
    OpeningShape opening_;
    double half_diagonal_mm_;
};

/// The lens, or nothing where no image can form (focused inside its focal length, f/0, NaN).
///
/// half_diagonal_mm  of the sensor, > 0
[[nodiscard]] std::optional<Lens>
focused_lens(const LensSettings& settings,
             double half_diagonal_mm = full_frame_half_diagonal_mm) noexcept;

/// Diameter of the opening (entrance pupil), D = f/N, millimetres.
[[nodiscard]] double aperture_diameter_mm(const Lens& lens) noexcept;

/// Distance from the lens to the sensor, v = f s/(s − f), millimetres.
[[nodiscard]] double image_distance_mm(const Lens& lens) noexcept;

/// Magnification in the plane of focus, m = f/(s − f).
[[nodiscard]] double magnification(const Lens& lens) noexcept;

/// Where in the picture a point lies, 0 in its middle … 1 in the corner.
///
/// field_tangent  distance of the point from the axis over distance along it, ≥ 0
[[nodiscard]] double image_height(const Lens& lens, double field_tangent) noexcept;

}  // namespace backrow::optics
