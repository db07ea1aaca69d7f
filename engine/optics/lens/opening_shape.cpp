#include "optics/lens/opening_shape.h"

#include "base/sequences.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace backrow::optics {

namespace {

// A polygon of n sides is 2n right triangles with a leg of one apothem p along x and the other of
// p t along y, t = tan(π/n); their area makes n p² t = π. With y = x·q,
//
//     M₂ₖ = (2n/π) ∫₀ᵖ∫₀ᵗ x²ᵏ⁺¹ (1 + q²)ᵏ dq dx = (2n/π) p²ᵏ⁺²/(2k + 2) ∫₀ᵗ (1 + q²)ᵏ dq,
//
// and the ratios have closed forms that tend to the disc's as t → 0.
OpeningShape polygon(int blades) noexcept {
    const double t = std::tan(std::numbers::pi / blades);
    const double p2 = std::numbers::pi / (blades * t);
    const double t2 = t * t;
    const double second = 1 + t2 / 3;
    const double fourth_over_second = 2.0 / 3 * p2 * (1 + t2 * (2.0 / 3 + t2 / 5)) / second;
    const double sixth_over_second =
        p2 * p2 / 2 * (1 + t2 * (1 + t2 * (3.0 / 5 + t2 / 7))) / second;
    return {.refocused = fourth_over_second,
            .left_over = std::sqrt(sixth_over_second - fourth_over_second * fourth_over_second)};
}

// Where sides are bent, M₂ₖ is the mean of the outline's (2k + 2)th power over k + 1: by Simpson's
// rule, whose error over so short an arc is below a millionth from five blades on.
OpeningShape rounded(const Opening& opening) noexcept {
    constexpr int steps = 8;
    const double half = std::numbers::pi / opening.blades;
    double second = 0, fourth = 0, sixth = 0;
    for (int i = 0; i <= steps; ++i) {
        const double weight = i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2;
        const double reach2 =
            std::pow(polygon_reach(opening.blades, opening.roundness, half * i / steps), 2);
        second += weight * reach2 * reach2 / 2;
        fourth += weight * reach2 * reach2 * reach2 / 3;
        sixth += weight * reach2 * reach2 * reach2 * reach2 / 4;
    }
    const double ratio = fourth / second;
    return {.refocused = ratio, .left_over = std::sqrt(sixth / second - ratio * ratio)};
}

/// A lens is made anew for every point that is projected through it, so the usual ones are kept.
constexpr int most_usual_blades = 20;

std::array<OpeningShape, most_usual_blades + 1> usual_polygons() noexcept {
    std::array<OpeningShape, most_usual_blades + 1> all{};
    for (int blades = 3; blades <= most_usual_blades; ++blades)
        all[static_cast<std::size_t>(blades)] = polygon(blades);
    return all;
}

}  // namespace

OpeningShape opening_shape(const Opening& opening) noexcept {
    if (opening.blades > 0 && opening.roundness > 0)
        return rounded(opening);
    static const std::array usual = usual_polygons();
    return opening.blades <= most_usual_blades ? usual[static_cast<std::size_t>(opening.blades)]
                                               : polygon(opening.blades);
}

}  // namespace backrow::optics
