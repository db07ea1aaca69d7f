#pragma once

// What a model looks like, as far as it can stand before somebody: its triangles and nothing else.

#include "scene/scene.h"

#include <glm/mat4x4.hpp>
#include <glm/vec3.hpp>

#include <array>
#include <vector>

namespace backrow::scene {

/// In the model's own space and units, as its file has them.
struct ModelShape {
    std::vector<std::array<glm::vec3, 3>> triangles;
    double lowest = 0;  ///< Least height of a corner.
    glm::vec3 middle{0};
    float reach = 0;  ///< No corner lies further from the middle.
};

[[nodiscard]] ModelShape model_shape(std::vector<std::array<glm::vec3, 3>> triangles);

/// Where a scene puts a model.
///
/// lowest    ModelShape::lowest
[[nodiscard]] glm::dmat4 world_from_model(const Model& model, double lowest);

}  // namespace backrow::scene
