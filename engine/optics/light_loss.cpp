#include "optics/light_loss.h"

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

// Four equal quarters: under the opening's own circle as far as the crossing, and then under that
// of the rim whose middle lies on the other side.
double open_share(const VignettedOpening& opening) noexcept {
    if (!opening.is_cut())
        return 1;
    const double R = opening.rim_radius;
    if (opening.rim_off >= R)
        return 0;
    const auto under_circle = [](double radius, double x) {
        return (x * std::sqrt(std::max(0.0, radius * radius - x * x)) +
                radius * radius * std::asin(std::min(x / radius, 1.0))) /
               2;
    };
    const double crossing = opening.crossing();
    return 4 / std::numbers::pi *
           (under_circle(1, crossing) + under_circle(R, R) -
            under_circle(R, crossing + opening.rim_off));
}

double light_share(const Lens& lens, double image_height) noexcept {
    const double tangent = image_height * lens.half_diagonal_mm() / image_distance_mm(lens);
    const double cos_squared = 1 / (1 + tangent * tangent);
    return open_share(vignetted_opening(lens.profile(), lens.f_number(), image_height)) *
           std::pow(cos_squared, 2 * lens.profile().natural_falloff);
}

}  // namespace backrow::optics
