#include "optics/exposure/exposure.h"

#include "optics/blur/motion.h"
#include "optics/exposure/stops.h"

#include <cmath>
#include <limits>

namespace backrow::optics {
namespace {

constexpr double base_iso = 100;
constexpr double full_frame_width_mm = 36;
constexpr double full_frame_height_mm = 24;

}  // namespace

double ev(double f_number, double shutter_s) noexcept {
    return std::log2(f_number * f_number / shutter_s);
}

double ev100(const Exposure& exposure) noexcept {
    return ev(exact_f_number(exposure.f_number), exposure.shutter_s) -
           std::log2(exposure.iso / base_iso);
}

double stops_over(const Exposure& exposure, double scene_ev100) noexcept {
    return scene_ev100 - ev100(exposure);
}

double shutter_s_for(double scene_ev100, double f_number, double iso) noexcept {
    return std::exp2(ev100({.f_number = f_number, .shutter_s = 1, .iso = iso}) - scene_ev100);
}

double iso_for(double scene_ev100, double f_number, double shutter_s) noexcept {
    return base_iso *
           std::exp2(ev100({.f_number = f_number, .shutter_s = shutter_s, .iso = base_iso}) -
                     scene_ev100);
}

double f_number_for(double scene_ev100, double shutter_s, double iso) noexcept {
    return f_number_from_stops(
        stops_over({.f_number = 1, .shutter_s = shutter_s, .iso = iso}, scene_ev100));
}

double effective_f_number(const Lens& lens) noexcept {
    return lens.f_number() * (1 + magnification(lens));
}

double handheld_limit_s(double focal_length_mm, double sensor_diagonal_mm) noexcept {
    // The ratio first: on full frame it is 1, and the limit of a 50 mm lens the very double 1/50.
    const double crop = std::hypot(full_frame_width_mm, full_frame_height_mm) / sensor_diagonal_mm;
    return 1 / (focal_length_mm * crop);
}

double motion_limit_s(double magnification, double speed_mps, double limit_mm) noexcept {
    const double streak_in_a_second_mm = streak_mm(magnification, speed_mps, 1);
    return streak_in_a_second_mm > 0 ? limit_mm / streak_in_a_second_mm
                                     : std::numeric_limits<double>::infinity();
}

}  // namespace backrow::optics
