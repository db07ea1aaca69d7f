#include "optics/contrast/lens_figures.h"

#include "optics/blur/blur_circle.h"
#include "optics/exposure/stops.h"
#include "optics/lens/light_loss.h"
#include "optics/lens/spot.h"

#include <algorithm>
#include <cmath>

namespace backrow::optics {
namespace {

constexpr int height_steps = 20;

std::vector<double> openings(double widest, double smallest) {
    std::vector<double> all{widest};
    for (const double f_number : marked_f_numbers())
        if (is_full_stop(f_number) && f_number > widest * 1.05 && f_number <= smallest)
            all.push_back(f_number);
    return all;
}

/// Focused where the middle of the chart is least blurred.
std::optional<Lens> focused_on_chart(const Lens& lens, double distance_m) {
    const auto near = lens.focused_at(distance_m);
    if (!near)
        return std::nullopt;
    return near->focused_at(1 / (1 / distance_m - spot_at(*near, 0).best_focus_dpt));
}

}  // namespace

const PlaceFigures& LensFigures::at(std::size_t f_number, double image_height) const {
    const auto height = std::lround(image_height * height_steps);
    return places[f_number][static_cast<std::size_t>(height)];
}

double mtf50_cy_per_mm(const Lens& lens, double axial_m, double image_height, Lines lines,
                       Light light) {
    const auto left = [&](double cy_per_mm) {
        return lens_mtf(lens, axial_m, image_height, lines, cy_per_mm, light);
    };
    const double cutoff = aperture_diameter_mm(lens) / (wavelength_mm * image_distance_mm(lens));
    // Up in steps of a fifth, so that contrast which comes back beyond a dark ring is not taken.
    double below = 0;
    double above = 1;
    while (left(above) >= 0.5) {
        below = above;
        above *= 1.2;
        if (above >= cutoff)
            return cutoff;
    }
    for (int i = 0; i < 20; ++i) {
        const double middle = (below + above) / 2;
        (left(middle) >= 0.5 ? below : above) = middle;
    }
    return (below + above) / 2;
}

std::optional<LensFigures> lens_figures(const Lens& lens, double distance_m,
                                        double smallest_f_number) {
    LensFigures figures{.distance_m = distance_m,
                        .f_numbers = openings(lens.f_number(), smallest_f_number)};
    for (int i = 0; i <= height_steps; ++i)
        figures.image_heights.push_back(static_cast<double>(i) / height_steps);
    for (const double f_number : figures.f_numbers) {
        const auto stopped = lens.stopped_to(f_number);
        const auto focused = stopped ? focused_on_chart(*stopped, distance_m) : std::nullopt;
        if (!focused)
            return std::nullopt;
        const auto mtf50 = [&](double height, Lines lines) {
            return mtf50_cy_per_mm(*focused, distance_m, height, lines);
        };
        auto& row = figures.places.emplace_back();
        for (const double height : figures.image_heights)
            row.push_back({.mtf50_tangential_cy_per_mm = mtf50(height, Lines::tangential),
                           .mtf50_sagittal_cy_per_mm = mtf50(height, Lines::sagittal),
                           .blur_mm = blur_diameter_mm(*focused, distance_m, height),
                           .stops_lost = std::max(0.0, std::log2(light_share(*focused, 0) /
                                                                 light_share(*focused, height)))});
    }
    const LensProfile& profile = lens.profile();
    const auto behind_m = [&](double nearer_dpt) {
        return 1 / (1 / distance_m + nearer_dpt) - distance_m;
    };
    for (const double height : figures.image_heights) {
        const double h2 = counted_height_squared(height);
        const double medial = profile.field_curvature_dpt * h2;
        const double half_split = profile.astigmatism_dpt * h2 / 2;
        figures.field.push_back({.image_height = height,
                                 .tangential_m = behind_m(medial + half_split),
                                 .sagittal_m = behind_m(medial - half_split)});
    }
    return figures;
}

std::optional<double> good_from(const LensFigures& figures, double image_height, double limit_mm) {
    std::optional<double> from;
    for (std::size_t i = figures.f_numbers.size(); i-- > 0;) {
        if (figures.at(i, image_height).blur_mm > limit_mm)
            break;
        from = figures.f_numbers[i];
    }
    return from;
}

}  // namespace backrow::optics
