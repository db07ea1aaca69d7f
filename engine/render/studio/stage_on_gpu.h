#pragma once

// The stage's triangles, materials and textures where the graphics card can read them.

#include "render/driver/gl.h"
#include "render/studio/gpu_vertex.h"

#include "stage/stage.h"

#include <glm/vec3.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace backrow::render {

/// Triangles that lie together in an index buffer and are drawn together.
struct Run {
    int first_index = 0;
    int index_count = 0;
    int texture = -1;  ///< −1 for none.
    /// The texture's detail is too small to be seen: its mean about each vertex will do.
    bool by_mean = false;
};

/// Adds a run, as one with the last where the two lie together and look alike.
void add_run(const Run& run, std::vector<Run>& runs);

/// One part of the stage as it lies in the buffers; somebody's parts with grain are two of these,
/// of the same vertices: what has none, and what has.
struct DrawnPart {
    std::size_t stage_part = 0;  ///< Index into Stage::parts.
    int first_vertex = 0;
    int vertex_count = 0;
    int first_index = 0;
    int index_count = 0;
    int texture = -1;
    stage::Role role = stage::Role::surroundings;
    int person = -1;
    bool lit = true;
    double spacing_m = 0;    ///< How far apart its vertices lie: the root mean square edge.
    glm::dvec3 centre_m{0};  ///< A ball round the part, engine space.
    double radius_m = 0;
};

class StageOnGpu {
public:
    StageOnGpu(const Gl& gl, const stage::Stage& stage);

    /// Gives a part other vertices, as many as it had and joined as they were: somebody who moved.
    /// stage_part  as DrawnPart::stage_part
    void move_vertices(std::size_t stage_part, const stage::Part& part);

    /// Adds the stage's last part, after all that were there: somebody who has come.
    void add_last_part(const Gl& gl, const stage::Stage& stage);

    /// What becomes of a part of which some triangles are cut into others.
    struct Cut {
        std::size_t drawn_part = 0;       ///< Index into parts().
        std::vector<std::uint32_t> kept;  ///< Three a triangle, into the part's own vertices.
        int first_vertex = 0;             ///< Of the others' among the new vertices; how many.
        int vertex_count = 0;
        std::vector<std::uint32_t> indices;  ///< Of the others, into the new vertices.
    };
    /// Keeps these parts' triangles that are kept and gives each another part for its others, of
    /// vertices that come after all that were there.
    void cut(const Gl& gl, const std::vector<Cut>& cuts,
             const std::vector<GpuVertex>& new_vertices);

    [[nodiscard]] const std::vector<DrawnPart>& parts() const noexcept { return parts_; }
    [[nodiscard]] glm::dvec3 towards_sun() const noexcept { return towards_sun_; }
    [[nodiscard]] bool sun_is_up() const noexcept { return sun_is_up_; }
    [[nodiscard]] const std::optional<stage::WindowLight>& window() const noexcept {
        return window_;
    }

    [[nodiscard]] std::size_t vertex_count() const noexcept { return positions_.size(); }
    [[nodiscard]] GLuint vertex_buffer() const noexcept { return vertices_.name(); }
    /// Read back from the graphics card.
    [[nodiscard]] std::vector<GpuVertex> vertices(int first_vertex, int vertex_count) const;
    /// Gives a vertex array the positions: attribute 0, binding 0.
    void describe_positions(GLuint layout) const;
    /// Likewise the texture coordinates: any attribute, binding 0.
    void describe_uvs(GLuint layout, GLuint attribute) const;

    /// Engine space; and three indices a triangle into them, in the order of parts().
    [[nodiscard]] const std::vector<glm::vec3>& positions() const noexcept { return positions_; }
    [[nodiscard]] const std::vector<std::uint32_t>& indices() const noexcept {
        return indices_here_;
    }

    /// Gives a vertex array the materials: any attribute, binding 0.
    void describe_materials(GLuint layout, GLuint attribute) const;

    /// Makes vertices, indices and materials current for the draws that follow.
    void bind() const;
    void bind_materials() const;
    /// Draws from the current index buffer with whatever program is current; textures go to unit 0.
    void draw(const std::vector<Run>& runs) const;
    void draw(const Run& run) const;

private:
    /// Notes it and its indices; its vertices go to the end of these, which come after so many.
    void append(const stage::Part& part, std::size_t stage_part, std::size_t vertices_before,
                std::vector<GpuVertex>& vertices);
    void take_materials(const Gl& gl);
    void take_triangles(const Gl& gl, Buffer vertices);
    /// Makes room behind the vertices that are there.
    void take_more_vertices(const Gl& gl, const std::vector<GpuVertex>& more);

    std::vector<DrawnPart> parts_;
    std::vector<std::uint16_t> part_materials_;  ///< By stage part.
    std::vector<glm::vec3> positions_;
    std::vector<std::uint32_t> indices_here_;
    std::vector<GpuMaterial> materials_here_;
    std::vector<Texture> textures_;
    Buffer vertices_;
    Buffer indices_;
    Buffer materials_;
    VertexArray layout_;
    glm::dvec3 towards_sun_{0, 1, 0};
    bool sun_is_up_ = true;
    std::optional<stage::WindowLight> window_;
};

/// The runs that draw these parts from the stage's own index buffer.
[[nodiscard]] std::vector<Run> runs_of(const std::vector<const DrawnPart*>& parts);

/// Draws one run through several lens samples at once.
void draw_instances(const Run& run, int instances);

}  // namespace backrow::render
