#pragma once

// Places of the camera that were kept for a scene, there again when it is opened again: lines of
// text in the state folder, beside nobody's scenes, read as hostile.

#include "rehearsal/sitting/camera_places.h"
#include "rehearsal/sitting/edited_scene.h"

#include <cstddef>
#include <vector>

namespace backrow::rehearsal {

/// How many are kept of one scene.
inline constexpr std::size_t most_camera_places = 24;

/// Those of this scene. One that the scene cannot have any more, as when whoever was in focus has
/// left, is not among them.
[[nodiscard]] std::vector<CameraPlace> kept_camera_places(const EditedScene& edited);

/// All of them, in place of those that were kept before. A scene that no file has yet keeps none.
/// Where nothing can be kept nothing is, which is no reason to stop anybody.
void keep_camera_places(const EditedScene& edited, const std::vector<CameraPlace>& places);

}  // namespace backrow::rehearsal
