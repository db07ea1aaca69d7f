#pragma once

// Everything that is drawn, as triangles: the people, what they stand on, the surroundings, imported
// models. The renderer and the glTF export both take exactly this.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "shapes/mesh.h"

#include "base/image.h"
#include "base/problem.h"

#include <glm/mat4x4.hpp>

#include <string>
#include <vector>

namespace backrow::scene {

enum class Role { body, face, surroundings, highlight };

/// One mesh at one place. person is the index into Scene::people, −1 for everything else.
struct Part {
    std::string name;
    shapes::Mesh mesh;  ///< In the part's own space.
    glm::dmat4 world_from_part{1};
    shapes::Material material;
    Role role = Role::surroundings;
    int person = -1;
};

struct Stage {
    std::vector<Part> parts;
    std::vector<Image<Rgba8>> textures;  ///< sRGB.
    glm::dvec3 towards_sun{0, 1, 0};     ///< Unit, engine space.
    bool sun_is_up = true;
};

/// Builds everything. Fails only on model files that Assimp cannot read.
[[nodiscard]] Checked<Stage> build_stage(const Scene& scene, const CameraView& view);

}  // namespace backrow::scene
