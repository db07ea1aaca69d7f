#pragma once

// The points of the lens that a picture is made through.

#include "base/sequences.h"

#include <vector>

namespace backrow::render {

/// As the shaders read it (std430): point of the opening in its radii, point of the texel −½ … ½.
struct LensSample {
    float pupil_x;
    float pupil_y;
    float jitter_x;
    float jitter_y;
};

/// Coarse samples, one a pass, each standing for an equal cell of the opening; and fine ones for
/// small bright sources, which would show as separate dots through the coarse ones alone. Those
/// that lie in pass i's cell are fine[first_fine[i]] … fine[first_fine[i + 1] − 1].
struct LensSamples {
    std::vector<LensSample> coarse;
    std::vector<LensSample> fine;
    std::vector<int> first_fine;  ///< One more than there are coarse samples.

    /// What one fine sample counts when the light of all passes is added up.
    [[nodiscard]] double fine_share() const noexcept {
        return static_cast<double>(coarse.size()) / static_cast<double>(fine.size());
    }
};

/// passes ≥ 1; fine_samples ≥ passes or 0 for as many as passes; blades 0 for a round opening.
[[nodiscard]] LensSamples make_lens_samples(int passes, int fine_samples, int blades);

}  // namespace backrow::render
