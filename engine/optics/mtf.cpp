#include "optics/mtf.h"

#include "optics/blur_circle.h"
#include "optics/light_loss.h"

#include "base/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace backrow::optics {
namespace {

// Gauss and Legendre's points and weights on [0, 1].
constexpr std::array<std::pair<double, double>, 12> across{
    {{0.0092196828766404, 0.0235876681932560},
     {0.0479413718147626, 0.0534696629976592},
     {0.1150486629028477, 0.0800391642716731},
     {0.2063410228566913, 0.1015837133615330},
     {0.3160842505009099, 0.1167462682691775},
     {0.4373832957442655, 0.1245735229067014},
     {0.5626167042557345, 0.1245735229067014},
     {0.6839157494990901, 0.1167462682691775},
     {0.7936589771433087, 0.1015837133615330},
     {0.8849513370971523, 0.0800391642716731},
     {0.9520586281852374, 0.0534696629976592},
     {0.9907803171233596, 0.0235876681932560}}};

/// W(p) as a polynomial, in waves; x along the radius.
struct Wave {
    double radial = 0;  // of px²
    double around = 0;  // of py²
    double fourth = 0;  // of p⁴
    double coma = 0;    // of p² px

    [[nodiscard]] double at(double x, double y) const noexcept {
        const double p2 = x * x + y * y;
        return radial * x * x + around * y * y + (fourth * p2 + coma * x) * p2;
    }
};

Wave wave_of(const Lens& lens, double axial_m, double image_height) noexcept {
    const LensProfile& profile = lens.profile();
    const double radius_m = m_from_mm(aperture_diameter_mm(lens)) / 2;
    const double waves_a_dioptre = radius_m * radius_m / m_from_mm(wavelength_mm);
    const double h2 = counted_height_squared(image_height);
    const double defocus = 1 / lens.focus_m() - 1 / axial_m + common_dpt(profile, image_height);
    const double split = profile.astigmatism_dpt / 2 * h2;
    return {.radial = waves_a_dioptre * (defocus + split) / 2,
            .around = waves_a_dioptre * (defocus - split) / 2,
            .fourth = waves_a_dioptre * spherical_at_edge_dpt(profile, lens.f_number()) / 4,
            .coma = waves_a_dioptre * profile.coma_dpt * used_radius(profile, lens.f_number()) *
                    std::sqrt(h2)};
}

}  // namespace

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

// The opening and its rims are the same in all four quarters, and so is where p + σ/2 and p − σ/2
// lie in it both; in the first quarter it is p + σ/2 that leaves first. The wave is even in y, so
// the quarters above and below add up to twice the one, or to its real part.
double lens_mtf(const Lens& lens, double axial_m, double image_height, Lines lines,
                double cy_per_mm) {
    // Lines across the radius are waves along it.
    const double half =
        wavelength_mm * image_distance_mm(lens) * cy_per_mm / aperture_diameter_mm(lens);
    const bool along = lines == Lines::tangential;
    const double dx = along ? half : 0, dy = along ? 0 : half;
    const VignettedOpening opening =
        vignetted_opening(lens.profile(), lens.f_number(), image_height);
    const auto height_at = [&](double x) {
        const double own = 1 - (x + dx) * (x + dx);
        const double off = x + dx + opening.rim_off;
        const double rim = opening.rim_radius * opening.rim_radius - off * off;
        return std::sqrt(std::max(0.0, opening.is_cut() ? std::min(own, rim) : own)) - dy;
    };
    const double least = std::sqrt(std::max(0.0, 1 - dy * dy));
    const double rims_end =
        std::sqrt(std::max(0.0, opening.rim_radius * opening.rim_radius - dy * dy)) -
        opening.rim_off;
    const double width = (opening.is_cut() ? std::min(least, rims_end) : least) - dx;
    if (width <= 0 || half >= 1)
        return 0;

    const Wave wave = wave_of(lens, axial_m, image_height);
    double real = 0, imaginary = 0;
    for (const auto& [at, weight] : across) {
        // By the sine the strips are close where their ends run steeply.
        const double angle = at * std::numbers::pi / 2;
        const double x = width * std::sin(angle);
        const double height = height_at(x);
        if (height <= 0)
            continue;
        const double strip = weight * std::numbers::pi / 2 * width * std::cos(angle) * height;
        for (const auto& [up, share] : across)
            for (const double side : {-x, x}) {
                const double y = height * up;
                const double turns = wave.at(side + dx, y + dy) - wave.at(side - dx, y - dy);
                const double angle_of = 2 * std::numbers::pi * turns;
                real += strip * share * std::cos(angle_of);
                if (along)
                    imaginary += strip * share * std::sin(angle_of);
            }
    }
    const double quarter_sums = std::numbers::pi * open_share(opening) / 2;
    return std::min(1.0, std::hypot(real, imaginary) / quarter_sums);
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
            (lens_mtf(lens, axial_m, image_height, Lines::tangential, frequency) +
             lens_mtf(lens, axial_m, image_height, Lines::sagittal, frequency)) /
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
