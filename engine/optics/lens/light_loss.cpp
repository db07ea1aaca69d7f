#include "optics/lens/light_loss.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace backrow::optics {

VignettedOpening vignetted_opening(const LensProfile& profile, double f_number,
                                   double image_height) noexcept {
    const double rim_radius = std::max(1.0, 1 / used_radius(profile, f_number));
    return {.rim_radius = rim_radius,
            .rim_off = profile.vignetting / 2 * std::sqrt(counted_height_squared(image_height)) *
                       rim_radius};
}

double VignettedOpening::crossing() const noexcept {
    return std::clamp((rim_radius * rim_radius - 1 - rim_off * rim_off) / (2 * rim_off), 0.0, 1.0);
}

namespace {

/// Area under a circle about 0, from 0 to x.
double under_circle(double radius, double x) noexcept {
    return (x * std::sqrt(std::max(0.0, radius * radius - x * x)) +
            radius * radius * std::asin(std::min(x / radius, 1.0))) /
           2;
}

// A quarter of what is left open: under the opening's own circle as far as the crossing, and then
// under that of the rim whose middle lies on the other side.
double area_to(const VignettedOpening& opening, double crossing, double x) noexcept {
    const double own = under_circle(1, std::min(x, crossing));
    return x <= crossing ? own
                         : own + under_circle(opening.rim_radius, x + opening.rim_off) -
                               under_circle(opening.rim_radius, crossing + opening.rim_off);
}

double height_at(const VignettedOpening& opening, double x) noexcept {
    const double own = 1 - x * x;
    const double off = x + opening.rim_off;
    return std::sqrt(
        std::max(0.0, std::min(own, opening.rim_radius * opening.rim_radius - off * off)));
}

}  // namespace

double open_share(const VignettedOpening& opening) noexcept {
    if (!opening.is_cut())
        return 1;
    if (opening.rim_off >= opening.rim_radius)
        return 0;
    return 4 / std::numbers::pi *
           area_to(opening, opening.crossing(), opening.rim_radius - opening.rim_off);
}

// Upright strips: as much of the area on this side of them, and as high a share of their height.
Point2 point_left_open(const VignettedOpening& opening, const Point2& in_opening) noexcept {
    if (!opening.is_cut())
        return in_opening;
    // At the very tip a strip has no height, and what they become of each other is that just
    // before.
    constexpr double tip = 1 - 1e-6;
    const double at = std::abs(in_opening.x);
    const double from = std::min(at, tip);
    const double crossing = opening.crossing();
    const double wanted = under_circle(1, from) * open_share(opening);
    double low = 0, high = opening.rim_radius - opening.rim_off;
    constexpr int halvings = 50;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (area_to(opening, crossing, middle) < wanted ? low : high) = middle;
    }
    const double across = height_at(opening, low) / std::sqrt(1 - from * from);
    const double along = from > 0 ? low / from : open_share(opening) / height_at(opening, 0);
    return {in_opening.x * along, in_opening.y * across};
}

double light_share(const Lens& lens, double image_height) noexcept {
    const double tangent = image_height * lens.half_diagonal_mm() / image_distance_mm(lens);
    const double cos_squared = 1 / (1 + tangent * tangent);
    return open_share(vignetted_opening(lens.profile(), lens.f_number(), image_height)) *
           std::pow(cos_squared, 2 * lens.profile().natural_falloff);
}

}  // namespace backrow::optics
