#pragma once

// A group as the text of a scene file, with comments.

#include "arranging/arrange.h"

#include <string>

namespace backrow::scene_file {

/// TOML that read_scene() takes to the very places, measures and camera of scene_of(plan). Comments
/// say why everything is as it is, and what to mind.
[[nodiscard]] std::string scene_toml(const arranging::Arrangement& arrangement);

}  // namespace backrow::scene_file
