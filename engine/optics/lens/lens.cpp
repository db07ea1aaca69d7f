#include "optics/lens/lens.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>

namespace backrow::optics {

Opening opening_of(const LensSettings& settings) noexcept {
    if (settings.blades > 0)
        return {.blades = settings.blades};
    const LensProfile& profile = settings.profile;
    if (profile.blades == 0)
        return {};
    const double stops_down = -2 * std::log2(used_radius(profile, settings.f_number));
    const double straight = (1 - profile.roundness) * std::clamp(stops_down, 0.0, 1.0);
    return straight > 0 ? Opening{.blades = profile.blades, .roundness = 1 - straight} : Opening{};
}

std::optional<Lens> focused_lens(const LensSettings& settings, double half_diagonal_mm) noexcept {
    const double focus_mm = mm_from_m(settings.focus_m);
    const bool finite = std::isfinite(settings.focal_length_mm) &&
                        std::isfinite(settings.f_number) && std::isfinite(focus_mm);
    if (!finite || settings.f_number <= 0 || settings.focal_length_mm <= 0 ||
        focus_mm <= settings.focal_length_mm || !(half_diagonal_mm > 0))
        return std::nullopt;
    return Lens{settings, half_diagonal_mm};
}

std::optional<Lens> Lens::focused_at(double focus_m) const noexcept {
    LensSettings turned = settings_;
    turned.focus_m = focus_m;
    return focused_lens(turned, half_diagonal_mm_);
}

std::optional<Lens> Lens::stopped_to(double f_number) const noexcept {
    LensSettings turned = settings_;
    turned.f_number = f_number;
    return focused_lens(turned, half_diagonal_mm_);
}

double aperture_diameter_mm(const Lens& lens) noexcept {
    return lens.focal_length_mm() / lens.f_number();
}

double image_distance_mm(const Lens& lens) noexcept {
    const double focus_mm = mm_from_m(lens.focus_m());
    return lens.focal_length_mm() * focus_mm / (focus_mm - lens.focal_length_mm());
}

double magnification(const Lens& lens) noexcept {
    return lens.focal_length_mm() / (mm_from_m(lens.focus_m()) - lens.focal_length_mm());
}

double image_height(const Lens& lens, double field_tangent) noexcept {
    return image_distance_mm(lens) * field_tangent / lens.half_diagonal_mm();
}

}  // namespace backrow::optics
