#include "optics/contrast/mtf.h"

#include "optics/blur/blur_circle.h"
#include "optics/contrast/wave.h"

#include "base/luminance.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>

namespace backrow::optics {
double diffraction_mtf(double of_cutoff) noexcept {
    if (of_cutoff >= 1)
        return 0;
    return 2 / std::numbers::pi *
           (std::acos(of_cutoff) - of_cutoff * std::sqrt(1 - of_cutoff * of_cutoff));
}

double disc_otf(double cycles) {
    const double x = std::numbers::pi * cycles;
    return x < 1e-6 ? 1 : 2 * std::cyl_bessel_j(1.0, x) / x;
}

double box_otf(double cycles) noexcept {
    const double x = std::numbers::pi * cycles;
    return std::abs(x) < 1e-6 ? 1 : std::sin(x) / x;
}

double lens_mtf(const Lens& lens, double axial_m, double image_height, Lines lines,
                double cy_per_mm, Light light) {
    return contrast(meetings(lens, image_height, lines, cy_per_mm, light),
                    wave_of(lens, axial_m, image_height))
        .left;
}

double seen_mtf(const Lens& lens, double axial_m, double image_height, Lines lines,
                double cy_per_mm, Light light) {
    const LensProfile& profile = lens.profile();
    if (colour_shift_dpt(profile, 0) == 0 && colour_shift_dpt(profile, 2) == 0)
        return lens_mtf(lens, axial_m, image_height, lines, cy_per_mm, light);
    const Meetings where = meetings(lens, image_height, lines, cy_per_mm, light);
    std::complex<double> sum = 0;
    for (int channel = 0; channel < 3; ++channel)
        sum += luminance_shares[static_cast<std::size_t>(channel)] *
               otf(where, wave_of(lens, axial_m, image_height, channel));
    return std::min(1.0, std::abs(sum));
}

double MtfCurve::at(double cy_per_mm) const {
    const double step = cy_per_mm / step_cy_per_mm;
    const auto last = static_cast<double>(values.size() - 1);
    if (!(step < last))
        return values.back();
    const auto before = static_cast<std::size_t>(step);
    return std::lerp(values[before], values[before + 1], step - static_cast<double>(before));
}

double mtf50_cy_per_mm(const MtfCurve& curve) {
    for (std::size_t i = 1; i < curve.values.size(); ++i)
        if (curve.values[i] < 0.5) {
            const double part =
                (curve.values[i - 1] - 0.5) / (curve.values[i - 1] - curve.values[i]);
            return (static_cast<double>(i - 1) + part) * curve.step_cy_per_mm;
        }
    return static_cast<double>(curve.values.size() - 1) * curve.step_cy_per_mm;
}

MtfCurve system_mtf(const Lens& lens, double axial_m, double image_height, double pixel_mm,
                    double streak_mm) {
    constexpr int steps = 32;
    // Across the blur no more cycles are of interest than these: what is left of them is nothing.
    constexpr double most_cycles = 4;
    const double blur_mm = blur_diameter_mm(lens, axial_m, image_height);
    const double end = std::min(1 / pixel_mm, most_cycles / std::max(blur_mm, streak_mm));
    MtfCurve curve{.step_cy_per_mm = end / steps, .values = {1}};
    for (int i = 1; i <= steps; ++i) {
        const double frequency = curve.step_cy_per_mm * i;
        const double of_lens =
            (seen_mtf(lens, axial_m, image_height, Lines::tangential, frequency) +
             seen_mtf(lens, axial_m, image_height, Lines::sagittal, frequency)) /
            2;
        const double of_movement = (1 + std::abs(box_otf(frequency * streak_mm))) / 2;
        curve.values.push_back(of_lens * of_movement * std::abs(box_otf(frequency * pixel_mm)));
    }
    return curve;
}

// By Simpson's rule in √v, in which the eye's sensitivity is smooth; what lies beyond 80 cycles a
// degree weighs a millionth.
double acutance(const std::function<double(double)>& mtf) {
    constexpr int steps = 200;
    constexpr double end = 80;
    double seen = 0, all = 0;
    for (int i = 0; i <= steps; ++i) {
        const double root = static_cast<double>(i) / steps;
        const double v = end * root * root;
        const double weight = (i == 0 || i == steps ? 1
                               : i % 2 == 1         ? 4
                                                    : 2) *
                              root * std::pow(v, 0.8) * std::exp(-0.2 * v);
        seen += weight * mtf(v);
        all += weight;
    }
    return seen / all;
}

}  // namespace backrow::optics
