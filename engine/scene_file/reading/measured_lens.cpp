#include "scene_file/reading/measured_lens.h"

#include "base/last_answers.h"
#include "base/units.h"

#include <vector>

namespace backrow::scene_file {
namespace {

constexpr double usual_mm = 50;
constexpr double usual_focal_lengths = 40;
// Contrast falls by .6 of itself where fineness grows by itself, about there: so much is 3 %.
constexpr double usual_error = 0.02;

std::optional<optics::ProfileFit> fitted(const NamedLensProfile& lens) {
    const optics::TestShots shots = measured_shots(lens);
    std::vector<optics::MeasuredContrast> contrasts;
    for (const MeasuredSharpness& one : lens.measured)
        contrasts.push_back({.f_number = one.f_number,
                             .image_height = one.image_height,
                             .tangential_share = 0.5,
                             .cy_per_mm = one.mtf50_cy_per_mm,
                             .mtf = 0.5,
                             .error = usual_error});
    return fit_profile(
        shots, contrasts,
        {.vignetting = lens.profile.vignetting, .natural_falloff = lens.profile.natural_falloff});
}

}  // namespace

optics::TestShots measured_shots(const NamedLensProfile& lens) {
    const double focal_length_mm =
        lens.profile.focal_length_mm > 0 ? lens.profile.focal_length_mm : usual_mm;
    return {.focal_length_mm = focal_length_mm,
            .distance_m = m_from_mm(usual_focal_lengths * focal_length_mm),
            .pixel_mm = lens.measured_pixel_mm,
            .widest_f_number = lens.profile.widest_f_number};
}

std::optional<optics::ProfileFit> fit_measured(const NamedLensProfile& lens) {
    struct Question {
        optics::LensProfile profile;
        double measured_pixel_mm;
        std::vector<MeasuredSharpness> measured;
        bool operator==(const Question&) const = default;
    };
    static LastAnswers<Question, std::optional<optics::ProfileFit>> last;
    return lens.measured.size() < fewest_measured
               ? std::nullopt
               : last({lens.profile, lens.measured_pixel_mm, lens.measured},
                      [&](const Question&) { return fitted(lens); });
}

}  // namespace backrow::scene_file
