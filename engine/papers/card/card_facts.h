#pragma once

// The numbers of a card for the shoot: what faces, advise, tradeoff and odds say of the scene, and
// what a photographer asks on location besides.

#include "plan/comparing/carried_lens.h"
#include "plan/comparing/cautions.h"
#include "plan/comparing/tradeoff.h"
#include "plan/drawings/from_above.h"
#include "plan/drawings/from_the_side.h"
#include "plan/faces/face_table.h"
#include "plan/faces/sun_checks.h"
#include "plan/odds/odds.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/exposure/right_exposure.h"

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::papers {

/// How far somebody may be out of line before it is asked what would mend it: half the depth of a
/// body. Common practice, no source.
inline constexpr double out_of_line_m = 0.10;

/// People as they stand (scene::as_they_stand()), counted from the front.
struct StoodRow {
    std::vector<std::size_t> people;  ///< From picture left to picture right.
    double behind_front_m = 0;        ///< Along the ground, behind the row in front of all.
    double up_m = 0;                  ///< Above the ground at the mark.
    double lens_to_row_m = 0;         ///< Along the ground.
};

struct CardFacts {
    scene::Scene scene{};  ///< Exposed for its light (plan::rightly_exposed()).
    scene::CameraView view{};
    plan::FaceTable table{};
    plan::FromAbove above{};
    plan::FromTheSide side{};
    std::vector<StoodRow> rows{};                     ///< The front one first.
    double stops_over_as_set = 0;                     ///< What the scene's own setting was off by.
    std::array<optics::ExposureSetting, 2> darker{};  ///< By one stop and by two.
    std::optional<std::size_t> least_room{};          ///< Who can drift least and is still fine.
    std::optional<double> out_of_line_f_number{};
    optics::ExposureSetting out_of_line{};  ///< At that opening.
    std::vector<plan::FramingLens> other_lenses{};
    plan::Odds odds{};  ///< That every face is fine and every eye open, of the scene as set.
    std::vector<std::size_t> to_check{};  ///< Whose eyes, the least sharp first.
    double magnification = 1;             ///< On the camera's screen.
    plan::SunChecks sun{};
    std::vector<plan::Caution> cautions{};
};

/// lenses  carried besides the scene's own; none: the usual ones next to it, shorter and longer
[[nodiscard]] CardFacts card_facts(const scene::Scene& scene,
                                   const std::vector<plan::CarriedLens>& lenses);

}  // namespace backrow::papers
