#include "optics/lens_profile.h"

namespace backrow::optics {

double defocus_dpt(const LensProfile& profile, double f_number, double pupil,
                   double image_height) noexcept {
    return spherical_at_edge_dpt(profile, f_number) * pupil * pupil +
           curvature_dpt(profile, image_height);
}

}  // namespace backrow::optics
