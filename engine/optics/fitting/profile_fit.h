#pragma once

// A lens profile from contrast that was measured in test frames: the errors through which a lens
// would leave as much contrast at every place and through every opening that was tried.
//
// All frames are of one flat chart, square to the camera, focused once. Where the camera focused is
// found beside the errors. That a lens which errs the other way round leaves the very same contrast
// is in the nature of it, |OTF(−W)| = |OTF(W)|: which of two signs is true such frames cannot tell,
// and the one is taken in which the edge of the opening focuses nearer, as in most lenses (common
// practice, no source).

#include "optics/fitting/light_fit.h"
#include "optics/fitting/test_shots.h"
#include "optics/lens/lens_profile.h"

#include <optional>
#include <string_view>
#include <vector>

namespace backrow::optics {

/// What is left of the contrast of lines, pixel included.
struct MeasuredContrast {
    double f_number = 2;
    double image_height = 0;  ///< 0 centre … 1 corner.
    /// cos² of the angle between the radius and the way across the lines: 1 for tangential ones,
    /// 0 for sagittal.
    double tangential_share = 1;
    double cy_per_mm = 10;
    double mtf = 0.5;
    double error = 0.01;  ///< Standard error of mtf, > 0.
};

/// One error of the lens.
struct FittedTerm {
    std::string_view key;  ///< As lens profiles spell it.
    double dpt = 0;
    double error_dpt = 0;  ///< Standard error; of a term that the frames do not tell, ∞.

    [[nodiscard]] bool is_told() const noexcept;
};

struct ProfileFit {
    LensProfile profile{};            ///< What the frames do not tell is 0 in it.
    std::vector<FittedTerm> terms{};  ///< Spherical, curvature, astigmatism, coma, focus.
    double typical_misfit = 0;        ///< Root mean square of what is left, in contrast.
    double worst_misfit = 0;
};

/// widest_f_number of the profile is that of the shots.
///
/// light     what the frames lose of it, which narrows the opening and so sharpens corners
/// measured  f-numbers and frequencies > 0, mtf within 0 … 1
/// returns   nothing from fewer than six, or where the lens of the shots forms no image
[[nodiscard]] std::optional<ProfileFit> fit_profile(const TestShots& shots,
                                                    const std::vector<MeasuredContrast>& measured,
                                                    const LightFit& light = {});

/// What the profile leaves of contrast, as fit_profile() models it.
///
/// returns  NaN where the lens of the shots forms no image
[[nodiscard]] double modelled_mtf(const TestShots& shots, const LensProfile& profile,
                                  const MeasuredContrast& at);

}  // namespace backrow::optics
