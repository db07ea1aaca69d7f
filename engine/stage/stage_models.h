#pragma once

// The scene's models, read from their files and put on the stage.

#include "scene/scene.h"
#include "stage/stage.h"

#include "base/problem.h"

#include <vector>

namespace backrow::stage {

/// Reads every file once, however often it is used, and adds parts and textures to the stage.
///
/// returns  what is wrong with files, told where the scene names them; too many triangles or too
///          large textures in all among it
[[nodiscard]] std::vector<Problem> add_models(const std::vector<scene::Model>& models,
                                              Stage& stage);

}  // namespace backrow::stage
