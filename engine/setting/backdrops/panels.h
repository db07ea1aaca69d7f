#pragma once

// Flat painted rectangles and the boxes made of them: what rooms and house fronts are built of.

#include "shapes/assemble.h"
#include "shapes/mesh.h"

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <cstdint>

namespace backrow::setting {

/// What a place of a surface looks like.
struct Paint {
    glm::vec3 colour{1};
    float ambient_visibility = 1;
};

/// A rectangle from its lower left corner as seen from where it faces: across × up is the way out.
struct Panel {
    glm::vec3 corner_m{0};
    glm::vec3 across_m{1, 0, 0};
    glm::vec3 up_m{0, 1, 0};

    /// The place at a share of across and up, 0 … 1.
    [[nodiscard]] glm::vec3 at(float across, float up) const noexcept {
        return corner_m + across * across_m + up * up_m;
    }
    [[nodiscard]] glm::vec3 facing() const noexcept;
};

/// An upright face as whoever looks at it sees it: places along it to the right, up, and behind it.
struct UprightFace {
    glm::vec3 foot_m{0};
    glm::vec3 along{1, 0, 0};  ///< Unit, level.

    /// Unit, towards whoever looks: along × up.
    [[nodiscard]] glm::vec3 out() const noexcept { return {-along.z, 0, along.x}; }
    [[nodiscard]] glm::vec3 at(const glm::vec2& place_m, float behind_m = 0) const noexcept {
        return foot_m + place_m.x * along + glm::vec3{0, place_m.y, 0} - behind_m * out();
    }
    [[nodiscard]] Panel panel(const glm::vec2& low_m, const glm::vec2& high_m,
                              float behind_m = 0) const noexcept {
        return {at(low_m, behind_m), (high_m.x - low_m.x) * along, {0, high_m.y - low_m.y, 0}};
    }
};

/// Two triangles of one paint.
void append_panel(shapes::Mesh& mesh, const Panel& panel, const Paint& paint);

/// The same with a paint for its lower and its upper edge.
void append_panel(shapes::Mesh& mesh, const Panel& panel, const Paint& low, const Paint& high);

/// An upright box without its back and underside: eight triangles. low_m < high_m.
void append_box(shapes::Mesh& mesh, const glm::vec3& low_m, const glm::vec3& high_m,
                const Paint& paint);

/// columns × rows cells, painted where lines cross by paint_at(place in metres).
template <class PaintAt>
void append_panel(shapes::Mesh& mesh, const Panel& panel, int columns, int rows,
                  const PaintAt& paint_at) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    const glm::vec3 normal = panel.facing();
    for (int row = 0; row <= rows; ++row) {
        for (int column = 0; column <= columns; ++column) {
            const glm::vec3 place =
                panel.at(static_cast<float>(column) / static_cast<float>(columns),
                         static_cast<float>(row) / static_cast<float>(rows));
            const Paint paint = paint_at(place);
            shapes::append(mesh, {.position_m = place,
                                  .normal = normal,
                                  .colour = paint.colour,
                                  .ambient_visibility = paint.ambient_visibility});
        }
    }
    const auto stride = static_cast<std::uint32_t>(columns + 1);
    for (std::uint32_t row = 0; row < static_cast<std::uint32_t>(rows); ++row) {
        for (std::uint32_t column = 0; column + 1 < stride; ++column) {
            const std::uint32_t low = first + row * stride + column;
            shapes::append_triangle(mesh, low, low + 1, low + stride + 1);
            shapes::append_triangle(mesh, low, low + stride + 1, low + stride);
        }
    }
}

}  // namespace backrow::setting
