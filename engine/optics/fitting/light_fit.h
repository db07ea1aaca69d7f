#pragma once

// What a lens loses of the light (light_loss.h), from the light of an evenly lit chart.

#include "optics/fitting/test_shots.h"

#include <limits>
#include <optional>
#include <vector>

namespace backrow::optics {

/// The light of an evenly lit chart at a place of a frame. Frames of one f-number are exposed
/// alike, of others as they may be.
struct MeasuredLight {
    double f_number = 2;
    double image_height = 0;
    double light = 1;  ///< > 0, in any unit.
};

/// The errors are standard errors; of what the frames do not tell, ∞.
struct LightFit {
    double vignetting = 0;
    double natural_falloff = 0;
    double vignetting_error = std::numeric_limits<double>::infinity();
    double natural_falloff_error = std::numeric_limits<double>::infinity();
    double typical_misfit = 0;  ///< Root mean square of what is left, of the light.
};

/// The rims and the share of the cos⁴ law that explain the light best. The lamps' own unevenness
/// is taken for the lens's, and a hundredth of it counts in the errors. What the frames do not tell
/// is 0.
///
/// returns  nothing from fewer than six, or where the lens of the shots forms no image
[[nodiscard]] std::optional<LightFit> fit_light(const TestShots& shots,
                                                const std::vector<MeasuredLight>& measured);

}  // namespace backrow::optics
