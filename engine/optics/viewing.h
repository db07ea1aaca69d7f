#pragma once

// How the finished picture is looked at, and so what "sharp" means.

namespace backrow::optics {

enum class Grade { crisp, fine, soft, lost };

/// A picture in somebody's hand or on a wall.
struct PrintViewing {
    double long_side_cm;
    double distance_cm;
};

inline constexpr PrintViewing phone_viewing{14.0, 30.0};
inline constexpr PrintViewing album_viewing{30.0, 40.0};
inline constexpr PrintViewing wall_viewing{90.0, 100.0};

/// Largest angles a blur may fill at the eye, arc minutes. Sources in viewing.cpp.
inline constexpr double crisp_limit_arcmin = 1.0;
inline constexpr double fine_limit_arcmin = 2.75;
inline constexpr double soft_limit_arcmin = 8.0;

/// Largest blurs when pixels are looked at one by one, camera pixels.
inline constexpr double crisp_limit_px = 1.5;
inline constexpr double fine_limit_px = 3.0;
inline constexpr double soft_limit_px = fine_limit_px * soft_limit_arcmin / fine_limit_arcmin;

/// Angle at the eye of a blur on the sensor, enlarged to the print. Returns arc minutes.
[[nodiscard]] double view_arcmin(double blur_mm, double sensor_long_side_mm,
                                 const PrintViewing& viewing) noexcept;

/// Its inverse: the blur on the sensor, millimetres, that fills this angle.
[[nodiscard]] double blur_mm_from_view_arcmin(double arcmin, double sensor_long_side_mm,
                                              const PrintViewing& viewing) noexcept;

[[nodiscard]] Grade grade_from_arcmin(double arcmin) noexcept;
[[nodiscard]] Grade grade_from_px(double blur_px) noexcept;

/// "crisp", "fine", "soft", "lost".
[[nodiscard]] const char* to_word(Grade grade) noexcept;

}  // namespace backrow::optics
