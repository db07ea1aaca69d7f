#pragma once

// Frames of one flat chart, square to the camera, by which a lens is measured.

#include "optics/contrast/mtf.h"
#include "optics/lens/lens.h"

#include <optional>

namespace backrow::optics {

/// Of all frames.
struct TestShots {
    double focal_length_mm = 50;
    double distance_m = 3;    ///< Lens to chart, along the axis.
    double pixel_mm = 0.006;  ///< 0: what was measured is of the lens alone.
    double half_diagonal_mm = full_frame_half_diagonal_mm;
    Light light = Light::waves;
    double widest_f_number = 0;  ///< Of the lens; 0: the widest that was tried.
};

/// The lens of these shots, if it had this profile; nothing where it forms no image.
[[nodiscard]] inline std::optional<Lens> lens_of(const TestShots& shots, const LensProfile& profile,
                                                 double f_number) {
    return focused_lens({.focal_length_mm = shots.focal_length_mm,
                         .f_number = f_number,
                         .focus_m = shots.distance_m,
                         .profile = profile},
                        shots.half_diagonal_mm);
}

}  // namespace backrow::optics
