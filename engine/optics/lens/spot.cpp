#include "optics/lens/spot.h"

#include "optics/lens/light_loss.h"
#include "optics/lens/quadrature.h"
#include "optics/lens/ray_error.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::optics {
namespace {

/// Sums over what is left of the opening, evenly filled; x towards the corner. All is even in y, so
/// one half is enough.
struct Sums {
    double area = 0;
    double p = 0, error = 0;  // their x; their y are 0
    double p2 = 0, p_error = 0, error2 = 0;

    void add(const LensProfile& profile, double f_number, double image_height, const Point2& pupil,
             double weight) noexcept {
        const Point2 e = ray_error_dpt(profile, f_number, pupil, {image_height, 0});
        area += weight;
        p += weight * pupil.x;
        error += weight * e.x;
        p2 += weight * (pupil.x * pupil.x + pupil.y * pupil.y);
        p_error += weight * (pupil.x * e.x + pupil.y * e.y);
        error2 += weight * (e.x * e.x + e.y * e.y);
    }
};

/// Of what is even about the middle.
std::vector<QuadraturePoint> upper_half(const std::vector<QuadraturePoint>& points) {
    std::vector<QuadraturePoint> upper;
    for (const auto& [at, weight] : points)
        if (at > 0.5)
            upper.push_back({.at = 2 * at - 1, .weight = 2 * weight});
    return upper;
}

// Strips across x. By the angle on the bounding circle everything is smooth, so that eight strips
// do for each of three arcs: the rim's on the left, the opening's own, the rim's on the right. A
// strip's errors are polynomials of sixth degree, for which four points are exact.
Sums sums_over(const VignettedOpening& opening, const Lens& lens, double image_height) {
    static const std::vector<QuadraturePoint> strips = gauss_legendre(8);
    static const std::vector<QuadraturePoint> along = upper_half(gauss_legendre(4));
    const double R = opening.rim_radius;
    const double c = opening.rim_off;
    const double crossing = opening.crossing();
    Sums sums;
    // Of a circle about (middle, 0), between two angles; 0 is where x is greatest.
    const auto add_arc = [&](double middle, double radius, double from, double to) {
        for (const auto& [at, weight] : strips) {
            const double angle = std::lerp(from, to, at);
            const double x = middle + radius * std::cos(angle);
            const double reach = radius * std::sin(angle);
            for (const auto& [up, share] : along)
                sums.add(lens.profile(), lens.f_number(), image_height, {x, reach * up},
                         (to - from) * weight * reach * reach * share);
        }
    };
    const double rims_end = std::acos(std::min((crossing + c) / R, 1.0));
    add_arc(-c, R, 0, rims_end);
    if (crossing > 0)
        add_arc(0, 1, std::acos(crossing), std::numbers::pi - std::acos(crossing));
    add_arc(c, R, std::numbers::pi - rims_end, std::numbers::pi);
    return sums;
}

// With ē and p̄ taken off, E|q e + ε'|² is E|q|² (e + E[q·ε']/E|q|²)² and a rest; a uniform disc of
// diameter b has E[r²] = b²/8 and the opening's own E|p|² is ½.
Spot spot_through(const VignettedOpening& opening, const Lens& lens, double image_height) {
    const Sums sums = sums_over(opening, lens, image_height);
    const double p = sums.p / sums.area, error = sums.error / sums.area;
    const double p2 = sums.p2 / sums.area - p * p;
    const double p_error = sums.p_error / sums.area - p * error;
    const double error2 = sums.error2 / sums.area - error * error;
    return {.best_focus_dpt = p_error / p2,
            .residual_dpt = std::sqrt(2 * std::max(0.0, error2 - p_error * p_error / p2)),
            .spread = std::sqrt(2 * p2)};
}

}  // namespace

// Through the whole opening, which looks the same turned by one blade, what is odd in p or turns
// twice with it has no mean, and means of p², p⁴ and p⁶ are left (opening_shape.h, ½ and ⅓ for the
// first two). Astigmatism leaves (S h²/2)²·E|p|²; coma κ²B²h²·(5 E|p|⁴ − 4 (E|p|²)²), the second
// being its mean's square.
Spot spot_at(const Lens& lens, double image_height) noexcept {
    const LensProfile& profile = lens.profile();
    const VignettedOpening opening = vignetted_opening(profile, lens.f_number(), image_height);
    if (profile.vignetting != 0 && opening.is_cut())
        return spot_through(opening, lens, image_height);

    const double at_edge_dpt = spherical_at_edge_dpt(profile, lens.f_number());
    Spot spot{.best_focus_dpt =
                  common_dpt(profile, image_height) + lens.opening().refocused * at_edge_dpt,
              .residual_dpt = lens.opening().left_over * std::abs(at_edge_dpt)};
    if (profile.astigmatism_dpt != 0 || profile.coma_dpt != 0) {
        const double h2 = counted_height_squared(image_height);
        const double astigmatism = profile.astigmatism_dpt * h2 / 2;
        const double coma = profile.coma_dpt * used_radius(profile, lens.f_number());
        spot.residual_dpt = std::sqrt(spot.residual_dpt * spot.residual_dpt +
                                      astigmatism * astigmatism + coma * coma * h2 * 4 / 3);
    }
    return spot;
}

}  // namespace backrow::optics
