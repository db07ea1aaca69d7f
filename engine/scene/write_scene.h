#pragma once

// A group as the text of a scene file, with comments.

#include "scene/arrange.h"

#include <string>

namespace backrow::scene {

/// TOML that read_scene() takes to the very places, measures and camera of scene_of(plan). Comments
/// say why everything is as it is, and what to mind.
[[nodiscard]] std::string scene_toml(const Arrangement& arrangement);

/// The text as a TOML string, in quotation marks. text is UTF-8 without control characters.
[[nodiscard]] std::string toml_string(const std::string& text);

}  // namespace backrow::scene
