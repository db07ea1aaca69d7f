#pragma once

// Places of the camera that are kept while others are tried: to go back to, and to compare by what
// the group as it stands now would look like from each.

#include "rehearsal/hands/handling.h"
#include "rehearsal/sitting/two_states.h"

#include "scene/scene.h"

#include "base/length_words.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::rehearsal {

/// Camera, lens and focus, as a scene has them.
struct CameraPlace {
    scene::Camera camera;
    scene::Focus focus;
    scene::Lens lens;
};
[[nodiscard]] CameraPlace camera_place(const scene::Scene& scene);

/// The scene photographed from there; nothing where it cannot be, as when whoever is in focus has
/// left.
[[nodiscard]] std::optional<scene::Scene> seen_from(scene::Scene scene, const CameraPlace& place);

/// All that is set on it, as for --set.
[[nodiscard]] std::vector<std::string> values_of(const CameraPlace& place);

/// The camera carried there, with all that is set on it.
[[nodiscard]] Change go_to(const scene::Scene& scene, const CameraPlace& place);

/// "85 mm f/2 from 9.4 m, portrait".
[[nodiscard]] std::string place_words(const CameraPlace& place, Units units);

/// "12 faces: 5 crisp, 7 fine; background 1.03 %".
[[nodiscard]] std::string standing_words(const Standing& standing);

}  // namespace backrow::rehearsal
