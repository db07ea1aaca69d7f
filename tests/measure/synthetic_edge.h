#pragma once

// Edges whose sharpness is known, for what measures them.

#include "base/colour.h"
#include "base/image.h"
#include "base/splitmix64.h"
#include "base/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace backrow::measure {

/// Numbers by lot, the same on every machine.
class Lots {
public:
    explicit Lots(std::uint64_t seed) : seed_{seed} {}
    double between(double low, double high);
    /// Mean 0, variance 1.
    double normal();

private:
    std::uint64_t seed_;
    std::uint64_t drawn_ = 0;
};

/// A half plane blurred by a Gaussian or a uniform disc, and averaged over each pixel.
struct SyntheticEdge {
    int width_px = 80;
    int height_px = 160;
    double angle_deg = 5;  ///< From upright; + leans to the right going down.
    double offset_px = 0;  ///< Of the edge from the middle.
    double sigma_px = 0;   ///< A Gaussian, or else …
    double disc_px = 0;    ///< … the diameter of a disc.
    double dark = 0.1;
    double bright = 0.6;
    double noise = 0;  ///< Standard deviation, of the step.
    bool is_level = false;
    bool is_srgb_8_bit = false;     ///< Rounded to 8 bits of sRGB, noise added before.
    bool is_point_sampled = false;  ///< Not averaged over the pixel.
    std::uint64_t seed = 0;
};

namespace blurred {

using std::numbers::pi;

/// The share of the step reached at this distance from the edge.
inline double step_at(const SyntheticEdge& edge, double distance_px) {
    if (edge.disc_px > 0) {
        // The area of the disc left of a line at this distance.
        const double along = std::clamp(2 * distance_px / edge.disc_px, -1.0, 1.0);
        return 0.5 + (along * std::sqrt(1 - along * along) + std::asin(along)) / pi;
    }
    return 0.5 * std::erfc(-distance_px / edge.sigma_px / std::numbers::sqrt2);
}

/// Gauss and Legendre's nodes of five points over [−½, ½]: exact for polynomials of degree 9.
inline constexpr std::array<double, 5> nodes{-0.4530899229693320, -0.2692346550528416, 0,
                                             0.2692346550528416, 0.4530899229693320};
inline constexpr std::array<double, 5> weights{0.1184634425280945, 0.2393143352496833,
                                               0.2844444444444444, 0.2393143352496833,
                                               0.1184634425280945};

inline double light_at(const SyntheticEdge& edge, double x, double y) {
    const double angle = rad_from_deg(edge.angle_deg);
    const auto share = [&](double at_x, double at_y) {
        const double across = at_x - edge.width_px / 2.0 - edge.offset_px;
        const double down = at_y - edge.height_px / 2.0;
        return step_at(edge, across * std::cos(angle) - down * std::sin(angle));
    };
    if (edge.is_point_sampled)
        return share(x, y);
    // In quarters of a pixel where the step bends within one.
    double mean = 0;
    const int parts = edge.sigma_px > 1 || edge.disc_px > 8 ? 1 : 4;
    for (int part = 0; part < parts; ++part)
        for (std::size_t i = 0; i < nodes.size(); ++i)
            for (std::size_t j = 0; j < nodes.size(); ++j)
                mean += weights[i] * weights[j] / parts *
                        share(x + (part + 0.5 + nodes[i]) / parts - 0.5, y + nodes[j]);
    return mean;
}

inline double sinc(double x) {
    return x == 0 ? 1 : std::sin(pi * x) / (pi * x);
}

}  // namespace blurred

inline double Lots::between(double low, double high) {
    const std::uint64_t bits = splitmix64(seed_ * 0x2545f4914f6cdd1dU + ++drawn_ * counter_step);
    return low + (high - low) * static_cast<double>(bits >> 11) * 0x1p-53;
}

inline double Lots::normal() {
    const double radius = std::sqrt(-2 * std::log(1 - between(0, 1)));
    return radius * std::cos(2 * std::numbers::pi * between(0, 1));
}

/// Linear light.
[[nodiscard]] inline Image<float> drawn(const SyntheticEdge& edge) {
    Lots lots{edge.seed};
    Image<float> picture(edge.width_px, edge.height_px);
    for (int y = 0; y < edge.height_px; ++y)
        for (int x = 0; x < edge.width_px; ++x) {
            const double share = blurred::light_at(edge, x + 0.5, y + 0.5) +
                                 (edge.noise > 0 ? edge.noise * lots.normal() : 0);
            auto light = static_cast<float>(edge.dark + (edge.bright - edge.dark) * share);
            if (edge.is_srgb_8_bit)
                light = linear_from_srgb(
                    std::round(255 * srgb_from_linear(std::clamp(light, 0.0f, 1.0f))) / 255);
            picture.at(x, y) = light;
        }
    if (!edge.is_level)
        return picture;
    Image<float> level(edge.height_px, edge.width_px);
    for (int y = 0; y < edge.height_px; ++y)
        for (int x = 0; x < edge.width_px; ++x)
            level.at(y, x) = picture.at(x, y);
    return level;
}

/// Of the blur and the pixel together, along the edge's normal.
[[nodiscard]] inline double mtf_of(const SyntheticEdge& edge, double cy_per_px) {
    if (cy_per_px == 0)
        return 1;
    const double disc = std::numbers::pi * edge.disc_px * cy_per_px;
    const double gauss = 2 * std::numbers::pi * std::numbers::pi * edge.sigma_px * edge.sigma_px *
                         cy_per_px * cy_per_px;
    const double blur =
        edge.disc_px > 0 ? 2 * std::abs(std::cyl_bessel_j(1.0, disc)) / disc : std::exp(-gauss);
    const double angle = rad_from_deg(edge.angle_deg);
    return edge.is_point_sampled ? blur
                                 : blur * std::abs(blurred::sinc(cy_per_px * std::cos(angle)) *
                                                   blurred::sinc(cy_per_px * std::sin(angle)));
}

[[nodiscard]] inline double mtf50_of(const SyntheticEdge& edge) {
    double low = 0;
    while (mtf_of(edge, low + 1e-3) > 0.5)
        low += 1e-3;
    double high = low + 1e-3;
    for (int halving = 0; halving < 40; ++halving)
        (mtf_of(edge, (low + high) / 2) > 0.5 ? low : high) = (low + high) / 2;
    return low;
}

}  // namespace backrow::measure
