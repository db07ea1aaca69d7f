#pragma once

// Conversions between the units this program speaks. Destination before source: mm_from_m(1.8).
//
// Two words for pixels, because confusing them is this program's likeliest bug: CameraPixels are
// pixels of the camera's full picture, Texels are pixels of whatever is being rendered right now.

#include <numbers>

namespace backrow {

[[nodiscard]] constexpr double mm_from_m(double m) noexcept {
    return m * 1000.0;
}
[[nodiscard]] constexpr double m_from_mm(double mm) noexcept {
    return mm / 1000.0;
}
[[nodiscard]] constexpr double um_from_mm(double mm) noexcept {
    return mm * 1000.0;
}
[[nodiscard]] constexpr double cm_from_m(double m) noexcept {
    return m * 100.0;
}
[[nodiscard]] constexpr double m_from_cm(double cm) noexcept {
    return cm / 100.0;
}
[[nodiscard]] constexpr double mm_from_cm(double cm) noexcept {
    return cm * 10.0;
}

inline constexpr int inches_in_a_foot = 12;
/// The international foot and inch, exact.
[[nodiscard]] constexpr double m_from_ft(double ft) noexcept {
    return ft * 0.3048;
}
[[nodiscard]] constexpr double m_from_in(double in) noexcept {
    return in * 0.0254;
}
[[nodiscard]] constexpr double in_from_m(double m) noexcept {
    return m / 0.0254;
}
[[nodiscard]] constexpr double ft_from_m(double m) noexcept {
    return m / 0.3048;
}

[[nodiscard]] constexpr double rad_from_deg(double deg) noexcept {
    return deg * std::numbers::pi / 180.0;
}
[[nodiscard]] constexpr double deg_from_rad(double rad) noexcept {
    return rad * 180.0 / std::numbers::pi;
}
[[nodiscard]] constexpr double arcmin_from_rad(double rad) noexcept {
    return deg_from_rad(rad) * 60.0;
}
[[nodiscard]] constexpr double rad_from_arcmin(double arcmin) noexcept {
    return rad_from_deg(arcmin / 60.0);
}

/// A length in pixels of the camera's full picture.
struct CameraPixels {
    double value = 0.0;
};

/// A length in pixels of the image being rendered.
struct Texels {
    double value = 0.0;
};

}  // namespace backrow
