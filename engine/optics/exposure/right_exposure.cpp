#include "optics/exposure/right_exposure.h"

#include "optics/exposure/exposure.h"
#include "optics/exposure/stops.h"

#include <algorithm>
#include <cmath>

namespace backrow::optics {
namespace {

/// Half of a third: nobody's camera could be set closer.
constexpr double unnoticed_stops = 1.0 / 6;

bool is_unnoticed(double stops) noexcept {
    return std::abs(stops) <= unnoticed_stops;
}

double bounded(double value, double a, double b) noexcept {
    return std::clamp(value, std::min(a, b), std::max(a, b));
}

double marked_within_s(double shutter_s, double longest_s) noexcept {
    const double marked_s = marked_shutter_s(shutter_s);
    return marked_s > longest_s ? marked_shutter_within_s(longest_s) : marked_s;
}

}  // namespace

double stops_over(const ExposureSetting& set, double f_number, double scene_ev100) noexcept {
    return stops_over(Exposure{.f_number = f_number, .shutter_s = set.shutter_s, .iso = set.iso},
                      scene_ev100) -
           set.filter_stops;
}

// What is left over when the shutter has been rounded is at most half of its widest gap, 0.21 of a
// stop; ISO takes that where it would be noticed, and its own widest gap is 0.36.
ExposureSetting right_exposure(const ExposureSetting& set, double f_number, double scene_ev100,
                               double longest_shutter_s) noexcept {
    const bool is_short_enough = set.shutter_s <= longest_shutter_s;
    if (is_short_enough && is_unnoticed(stops_over(set, f_number, scene_ev100)))
        return set;
    const double shortest_s = marked_shutters_s().back();
    const double least_iso = std::min(marked_isos().front(), set.iso);
    const double most_iso = std::max(marked_isos().back(), set.iso);

    ExposureSetting right{.shutter_s = set.shutter_s, .iso = set.iso};
    const double over_at_darkest =
        stops_over({.shutter_s = shortest_s, .iso = least_iso}, f_number, scene_ev100);
    right.filter_stops = std::max(0.0, std::ceil(over_at_darkest - unnoticed_stops));

    // Of shutter · ISO there must be so much.
    const double light =
        set.shutter_s * set.iso * std::exp2(-stops_over(right, f_number, scene_ev100));
    const double longest_s = std::max(longest_shutter_s, shortest_s);
    const double wanted_s = bounded(light / set.iso, shortest_s, longest_s);
    // A shutter between the marks, as somebody has set it, need not be rounded.
    right.shutter_s =
        is_unnoticed(std::log2(wanted_s / set.shutter_s)) && set.shutter_s <= longest_s
            ? set.shutter_s
            : marked_within_s(wanted_s, longest_s);
    if (!is_unnoticed(std::log2(light / right.shutter_s / set.iso)))
        right.iso = bounded(marked_iso(light / right.shutter_s), least_iso, most_iso);
    if (!is_unnoticed(stops_over(right, f_number, scene_ev100)) && right.iso == most_iso) {
        // Rather too long than too short: ISO, at its end, can only go down.
        right.shutter_s = marked_shutter_s(std::exp2(unnoticed_stops) * light / most_iso);
        right.iso = bounded(marked_iso(light / right.shutter_s), least_iso, most_iso);
    }
    return right;
}

}  // namespace backrow::optics
