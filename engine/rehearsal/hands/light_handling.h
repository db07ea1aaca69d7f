#pragma once

// The light by hand: the sun led round the group, a window of a room, and how bright it is.

#include "rehearsal/hands/handling.h"

#include "scene/scene.h"

#include <span>
#include <string>

namespace backrow::rehearsal {

[[nodiscard]] Change light_by(scene::LightKind kind);

/// Whole degrees, 0 … 359: 0 behind the camera's back, 90 at picture right, 180 behind the group.
[[nodiscard]] Change turn_sun(const scene::Scene& scene, double azimuth_deg);
/// Whole degrees above the horizon.
[[nodiscard]] Change raise_sun(double elevation_deg);

/// A window elsewhere or of another size: its direction as the sun's, its lengths in centimetres.
[[nodiscard]] Change move_window(const scene::Scene& scene, const scene::WindowPlace& window);

/// A weather, or a room, by its brightness.
struct Weather {
    const char* words;
    double ev100;
};
/// From the brightest to the darkest, as scenes are tabulated: [ANSIPH27]. Of a range, its middle.
[[nodiscard]] std::span<const Weather> weathers();
/// The one that comes nearest; of two as near, the brighter.
[[nodiscard]] const Weather& weather_at(double ev100);
/// Any other brightness, to a third of a stop as typed or stepped.
[[nodiscard]] Change brighten(double ev100);

/// "behind the camera", "at the left", "behind the group, at the right": for the sun and a window.
[[nodiscard]] std::string side_words(double azimuth_deg);
/// "low", "at mid-morning" … as the sun is high; "below the horizon".
[[nodiscard]] std::string height_words(double elevation_deg);

}  // namespace backrow::rehearsal
