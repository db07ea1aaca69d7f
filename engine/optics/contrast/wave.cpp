#include "optics/contrast/wave.h"

#include "optics/lens/light_loss.h"
#include "optics/lens/quadrature.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace backrow::optics {
namespace {

/// By how many turns one place of the opening is behind another, for one wave of each term.
Wave turns_between(double ax, double ay, double bx, double by) noexcept {
    const double a2 = ax * ax + ay * ay, b2 = bx * bx + by * by;
    return {.radial = ax * ax - bx * bx,
            .around = ay * ay - by * by,
            .fourth = a2 * a2 - b2 * b2,
            .coma = a2 * ax - b2 * bx};
}

/// The same where the two lie as close as rays, a step apart.
Wave turns_along_x(double x, double y, double step) noexcept {
    const double p2 = x * x + y * y;
    return {.radial = 2 * x * step, .fourth = 4 * p2 * x * step, .coma = (p2 + 2 * x * x) * step};
}

Wave turns_along_y(double x, double y, double step) noexcept {
    const double p2 = x * x + y * y;
    return {.around = 2 * y * step, .fourth = 4 * p2 * y * step, .coma = 2 * x * y * step};
}

/// By what angle a wave is apart.
double turned(const Wave& wave, const Wave& turns) noexcept {
    return 2 * std::numbers::pi *
           (wave.radial * turns.radial + wave.around * turns.around + wave.fourth * turns.fourth +
            wave.coma * turns.coma);
}

}  // namespace

Wave wave_of(const Lens& lens, double axial_m, double image_height, int channel) noexcept {
    const LensProfile& profile = lens.profile();
    const double radius_m = m_from_mm(aperture_diameter_mm(lens)) / 2;
    const double waves_a_dioptre = radius_m * radius_m / m_from_mm(wavelength_mm);
    const double h2 = counted_height_squared(image_height);
    const double defocus = 1 / lens.focus_m() - 1 / axial_m + common_dpt(profile, image_height) +
                           colour_shift_dpt(profile, channel);
    const double split = profile.astigmatism_dpt / 2 * h2;
    return {.radial = waves_a_dioptre * (defocus + split) / 2,
            .around = waves_a_dioptre * (defocus - split) / 2,
            .fourth = waves_a_dioptre * spherical_at_edge_dpt(profile, lens.f_number()) / 4,
            .coma = waves_a_dioptre * profile.coma_dpt * used_radius(profile, lens.f_number()) *
                    std::sqrt(h2)};
}

// The opening and its rims are the same in all four quarters, and so is where p + σ/2 and p − σ/2
// lie in it both; in the first quarter it is p + σ/2 that leaves first. The wave is even in y, so
// the quarters above and below add up to twice the one, or to its real part.
Meetings meetings(const Lens& lens, double image_height, Lines lines, double cy_per_mm,
                  Light light) {
    static const std::vector<QuadraturePoint> across = gauss_legendre(12);
    // Lines across the radius are waves along it.
    const double half =
        wavelength_mm * image_distance_mm(lens) * cy_per_mm / aperture_diameter_mm(lens);
    const bool along = lines == Lines::tangential;
    const bool is_waves = light == Light::waves;
    Meetings found{.is_even = !along};
    const double dx = is_waves && along ? half : 0, dy = is_waves && !along ? half : 0;
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
    if (width <= 0 || (is_waves && half >= 1))
        return found;

    const double quarter_sums = std::numbers::pi * open_share(opening) / 2;
    found.all.reserve(2 * across.size() * across.size());
    for (const QuadraturePoint& out : across) {
        // By the sine the strips are close where their ends run steeply.
        const double angle = out.at * std::numbers::pi / 2;
        const double x = width * std::sin(angle);
        const double height = height_at(x);
        if (height <= 0)
            continue;
        const double strip =
            out.weight * std::numbers::pi / 2 * width * std::cos(angle) * height / quarter_sums;
        for (const QuadraturePoint& up : across)
            for (const double side : {-x, x}) {
                const double y = height * up.at;
                found.all.push_back(
                    {.weight = strip * up.weight,
                     .turns = is_waves ? turns_between(side + dx, y + dy, side - dx, y - dy)
                              : along  ? turns_along_x(side, y, 2 * half)
                                       : turns_along_y(side, y, 2 * half)});
            }
    }
    return found;
}

// Both openings, and what they have in common, lie about the middle and bulge outwards everywhere,
// so spokes from there reach all of it.
Meetings slanted_meetings(const Lens& lens, double image_height, double tangential_share,
                          double cy_per_mm, Light light) {
    static const std::vector<QuadraturePoint> outwards = gauss_legendre(8);
    constexpr int spokes = 40;
    const double half =
        wavelength_mm * image_distance_mm(lens) * cy_per_mm / aperture_diameter_mm(lens);
    const double across_x = std::sqrt(tangential_share);
    const double across_y = std::sqrt(std::max(0.0, 1 - tangential_share));
    const bool is_waves = light == Light::waves;
    const double dx = is_waves ? half * across_x : 0, dy = is_waves ? half * across_y : 0;
    const VignettedOpening opening =
        vignetted_opening(lens.profile(), lens.f_number(), image_height);
    /// How far it is along a spoke to the edge of a disc; < 0 where the disc leaves the middle out.
    const auto way_out = [](double x, double y, double middle_x, double middle_y, double radius) {
        const double on_spoke = x * middle_x + y * middle_y;
        const double inside = radius * radius - middle_x * middle_x - middle_y * middle_y;
        return inside <= 0 ? -1 : on_spoke + std::sqrt(inside + on_spoke * on_spoke);
    };
    Meetings found;
    found.all.reserve(spokes * outwards.size());
    const double sums = std::numbers::pi * open_share(opening);
    for (int i = 0; i < spokes; ++i) {
        const double angle = 2 * std::numbers::pi * (i + 0.5) / spokes;
        const double x = std::cos(angle), y = std::sin(angle);
        double reach = std::min(way_out(x, y, dx, dy, 1), way_out(x, y, -dx, -dy, 1));
        if (opening.is_cut())
            for (const double rim : {-opening.rim_off, opening.rim_off})
                for (const double side : {-1.0, 1.0})
                    reach = std::min(reach,
                                     way_out(x, y, rim + side * dx, side * dy, opening.rim_radius));
        if (reach <= 0)
            return {};
        for (const auto& [at, weight] : outwards) {
            const double r = reach * at;
            const double px = r * x, py = r * y;
            Wave turns = turns_between(px + dx, py + dy, px - dx, py - dy);
            if (!is_waves) {
                const Wave on_x = turns_along_x(px, py, 2 * half * across_x);
                const Wave on_y = turns_along_y(px, py, 2 * half * across_y);
                turns = {.radial = on_x.radial,
                         .around = on_y.around,
                         .fourth = on_x.fourth + on_y.fourth,
                         .coma = on_x.coma + on_y.coma};
            }
            found.all.push_back(
                {.weight = weight * reach * r * 2 * std::numbers::pi / spokes / sums,
                 .turns = turns});
        }
    }
    return found;
}

std::complex<double> otf(const Meetings& meetings, const Wave& wave) noexcept {
    std::complex<double> sum = 0;
    for (const auto& [weight, turns] : meetings.all) {
        const double angle = turned(wave, turns);
        sum +=
            weight * std::complex<double>{std::cos(angle), meetings.is_even ? 0 : std::sin(angle)};
    }
    return sum;
}

Contrast contrast(const Meetings& meetings, const Wave& wave) noexcept {
    double real = 0, imaginary = 0;
    Wave of_real, of_imaginary;
    const auto add = [](Wave& sum, double times, const Wave& turns) {
        sum.radial += times * turns.radial;
        sum.around += times * turns.around;
        sum.fourth += times * turns.fourth;
        sum.coma += times * turns.coma;
    };
    for (const auto& [weight, turns] : meetings.all) {
        const double angle = turned(wave, turns);
        const double cosine = weight * std::cos(angle), sine = weight * std::sin(angle);
        real += cosine;
        add(of_real, -sine, turns);
        if (!meetings.is_even) {
            imaginary += sine;
            add(of_imaginary, cosine, turns);
        }
    }
    Contrast found{.left = std::min(1.0, std::hypot(real, imaginary))};
    if (found.left > 0) {
        add(found.slopes, 2 * std::numbers::pi * real / found.left, of_real);
        add(found.slopes, 2 * std::numbers::pi * imaginary / found.left, of_imaginary);
    }
    return found;
}

}  // namespace backrow::optics
