#include "optics/lens/lens_profile.h"

namespace backrow::optics {

bool has_errors(const LensProfile& profile) noexcept {
    return profile.spherical_dpt != 0 || profile.field_curvature_dpt != 0 ||
           profile.astigmatism_dpt != 0 || profile.coma_dpt != 0;
}

bool is_perfect(const LensProfile& profile) noexcept {
    return !has_errors(profile) && profile.longitudinal_colour_dpt == std::array<double, 3>{} &&
           profile.vignetting == 0 && profile.natural_falloff == 0 && profile.focus_offset_dpt == 0;
}

LensProfile at_focal_length(const LensProfile& profile, double focal_length_mm) noexcept {
    if (profile.focal_length_mm <= 0 || profile.focal_length_mm == focal_length_mm)
        return profile;
    const double share = profile.focal_length_mm / focal_length_mm;
    LensProfile scaled = profile;
    scaled.focal_length_mm = focal_length_mm;
    for (double* error :
         {&scaled.spherical_dpt, &scaled.field_curvature_dpt, &scaled.astigmatism_dpt,
          &scaled.coma_dpt, &scaled.focus_offset_dpt, &scaled.longitudinal_colour_dpt[0],
          &scaled.longitudinal_colour_dpt[1], &scaled.longitudinal_colour_dpt[2]})
        *error *= share;
    return scaled;
}

}  // namespace backrow::optics
