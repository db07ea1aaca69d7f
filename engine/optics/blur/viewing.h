#pragma once

// How the finished picture is looked at, and so what "sharp" means.

#include <optional>

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

/// The unit in which a blur is judged: the angle that it fills at the viewer's eye, or camera
/// pixels where these are looked at one by one.
enum class BlurUnit { arcmin, px };

/// A blur as it is judged.
struct JudgedBlur {
    double amount = 0;
    BlurUnit unit = BlurUnit::arcmin;
};

/// The largest blurs that earn crisp, fine and soft, arc minutes. Sources in viewing.cpp.
inline constexpr double crisp_limit_arcmin = 1.0;
inline constexpr double fine_limit_arcmin = 2.75;
inline constexpr double soft_limit_arcmin = 8.0;

/// Likewise, camera pixels.
inline constexpr double crisp_limit_px = 1.5;
inline constexpr double fine_limit_px = 3.0;
inline constexpr double soft_limit_px = fine_limit_px * soft_limit_arcmin / fine_limit_arcmin;

/// The largest blur that still earns a grade; infinite for lost.
[[nodiscard]] double limit_of(Grade grade, BlurUnit unit) noexcept;

/// The angle, where that is the unit.
[[nodiscard]] inline std::optional<double> arcmin_of(JudgedBlur blur) noexcept {
    return blur.unit == BlurUnit::arcmin ? std::optional{blur.amount} : std::nullopt;
}

/// A blur at the limit still earns the grade; one that is no number is lost.
[[nodiscard]] Grade grade_of(JudgedBlur blur) noexcept;

/// Angle at the eye of a blur on the sensor, enlarged to the print. Returns arc minutes.
[[nodiscard]] double view_arcmin(double blur_mm, double sensor_long_side_mm,
                                 const PrintViewing& viewing) noexcept;

/// Its inverse: the blur on the sensor, millimetres, that fills this angle.
[[nodiscard]] double blur_mm_from_view_arcmin(double arcmin, double sensor_long_side_mm,
                                              const PrintViewing& viewing) noexcept;

/// "crisp", "fine", "soft", "lost".
[[nodiscard]] const char* to_word(Grade grade) noexcept;

}  // namespace backrow::optics
