#pragma once

// From where, or through which lens, the whole group is in the picture.

#include "plan/faces/cropping.h"
#include "scene/scene.h"

#include <optional>

namespace backrow::plan {

/// The least that would do, each with all the rest as it is, to centimetres and whole millimetres.
/// Nothing where up to four times as far, or a fourth of the focal length, will not do.
struct WholeGroup {
    std::optional<double> lens_to_mark_m{};   ///< Farther than now.
    std::optional<double> focal_length_mm{};  ///< Shorter than now.
};

/// Whom the frame cuts, aimed as the scene is; indices in Scene::people.
[[nodiscard]] FrameCuts frame_cuts(const scene::Scene& scene);

/// Aimed as the scene is; aimed at the group the frame keeps the group as it comes to fit.
[[nodiscard]] WholeGroup whole_group(const scene::Scene& scene);

/// The same where a head is cut or nearly so, or some people are cut and others are not. Who cuts
/// everybody alike below the head means to.
///
/// cut  of the scene as it is
[[nodiscard]] std::optional<WholeGroup> mend_framing(const scene::Scene& scene,
                                                     const FrameCuts& cut);

}  // namespace backrow::plan
