#pragma once

// The stage's triangles, materials and textures where the graphics card can read them.

#include "render/gl.h"

#include "scene/stage.h"

#include <glm/vec3.hpp>

#include <cstddef>
#include <vector>

namespace backrow::render {

/// A run of triangles drawn together: one part of the stage.
struct DrawnPart {
    int first_index = 0;
    int index_count = 0;
    int texture = -1;
    scene::Role role = scene::Role::surroundings;
    int person = -1;
    bool lit = true;
    double spacing_m = 0;     ///< How far apart its vertices lie: the root mean square edge.
    glm::dvec3 centre_m{0};  ///< A ball round the part, engine space.
    double radius_m = 0;
};

class StageOnGpu {
public:
    StageOnGpu(const Gl& gl, const scene::Stage& stage);

    [[nodiscard]] const std::vector<DrawnPart>& parts() const noexcept { return parts_; }
    [[nodiscard]] glm::dvec3 towards_sun() const noexcept { return towards_sun_; }
    [[nodiscard]] bool sun_is_up() const noexcept { return sun_is_up_; }

    [[nodiscard]] std::size_t vertex_count() const noexcept { return vertex_count_; }
    [[nodiscard]] GLuint vertex_buffer() const noexcept { return vertices_.name(); }
    /// Gives a vertex array the positions (attribute 0, binding 0) and the indices.
    void describe_positions(GLuint layout) const;

    /// Makes vertices, indices and materials current for the draws that follow.
    void bind() const;
    /// Draws these parts with whatever program is current; textures go to unit 0. Neighbours in
    /// memory that share a texture become one draw.
    void draw(const std::vector<const DrawnPart*>& parts) const;
    /// Draws one part through several lens samples at once.
    void draw_instances(const DrawnPart& part, int instances) const;

private:
    std::vector<DrawnPart> parts_;
    std::vector<Texture> textures_;
    std::size_t vertex_count_ = 0;
    Buffer vertices_;
    Buffer indices_;
    Buffer materials_;
    VertexArray layout_;
    glm::dvec3 towards_sun_{0, 1, 0};
    bool sun_is_up_ = true;
};

}  // namespace backrow::render
