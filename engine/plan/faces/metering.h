#pragma once

// Whether the scene's own aperture, shutter and ISO suit its light, and how slow the shutter may
// be.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/exposure/right_exposure.h"

namespace backrow::plan {

/// How fast the head of somebody who tries to stand still moves. An upper estimate: the centre of
/// pressure under the feet of 87 young people moved at 0.87 cm/s on average [SANTOS2016], and a
/// stiff body carries at most 1.7 times the sway of its feet to its head.
inline constexpr double standing_still_mps = 0.015;

struct Metering {
    double ev100 = 0;               ///< The brightness that the setting suits.
    double scene_ev100 = 0;         ///< What was metered.
    double stops_over = 0;          ///< + overexposed, − underexposed.
    double effective_f_number = 0;  ///< N·(1 + m), as focused.
    double handheld_limit_s = 0;    ///< Longest shutter by hand, optics::handheld_limit_s().
    double motion_limit_s = 0;      ///< Longest shutter in which nobody's own movement, walking or
                                    ///< standing still, draws a streak beyond the fine limit.
                                    ///< Infinite where nobody is in front of the lens.
};

/// view  camera_view() of this scene, or the same with another focus or f-number to compare
[[nodiscard]] Metering metering(const scene::Scene& scene, const scene::CameraView& view);

/// What the scene has set besides its aperture.
[[nodiscard]] optics::ExposureSetting exposure_setting(const scene::Camera& camera) noexcept;

/// The setting that suits the light, beginning from the scene's own: optics::right_exposure() with
/// the shutter within its limits. One that is longer than by hand through the present lens already
/// stays, as on a tripod, but none is longer than people hold still.
///
/// now  the scene whose shutter, ISO and filter are set
/// view the one to be exposed, perhaps through another lens or from elsewhere
/// at   metering() of that view
[[nodiscard]] optics::ExposureSetting
right_exposure(const scene::Scene& now, const scene::CameraView& view, const Metering& at) noexcept;

/// The scene with its exposure put right for its light.
[[nodiscard]] scene::Scene rightly_exposed(scene::Scene scene);

/// What suits the same scene once it has become darker by so many stops, or brighter by negative
/// ones, beginning from what suits it now.
[[nodiscard]] optics::ExposureSetting right_exposure_when_darker(const scene::Scene& scene,
                                                                 double stops);

/// How many stops brighter than metered the scene wants its picture shown: stops_over where it is
/// shown as set, else 0.
[[nodiscard]] double stops_shown(const scene::Camera& camera, const Metering& metering) noexcept;

}  // namespace backrow::plan
