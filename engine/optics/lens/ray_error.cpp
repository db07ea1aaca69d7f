#include "optics/lens/ray_error.h"

#include <cmath>

namespace backrow::optics {

Point2 ray_error_dpt(const LensProfile& profile, double f_number, const Point2& pupil,
                     const Point2& image) noexcept {
    const double used = used_radius(profile, f_number);
    const double height_squared = image.x * image.x + image.y * image.y;
    const double counted = counted_height_squared(std::sqrt(height_squared));
    const double held = height_squared > counted ? std::sqrt(counted / height_squared) : 1;
    const Point2 h{held * image.x, held * image.y};
    const double pupil_squared = pupil.x * pupil.x + pupil.y * pupil.y;
    const double along = h.x * pupil.x + h.y * pupil.y;
    const double coma = profile.coma_dpt * used;

    const double on_pupil = spherical_at_edge_dpt(profile, f_number) * pupil_squared +
                            common_dpt(profile, std::sqrt(height_squared)) -
                            profile.astigmatism_dpt / 2 * counted + 2 * coma * along;
    const double on_height = profile.astigmatism_dpt * along + coma * pupil_squared;
    return {on_pupil * pupil.x + on_height * h.x, on_pupil * pupil.y + on_height * h.y};
}

}  // namespace backrow::optics
