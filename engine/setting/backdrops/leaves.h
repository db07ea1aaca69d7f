#pragma once

// Leaves, one by one and in clumps.

#include "shapes/mesh.h"

namespace backrow::setting {

/// A folded lozenge: two triangles that share the midrib. Its upper side is where facing points.
struct Leaf {
    glm::vec3 middle_m{0};
    glm::vec3 facing{0, 1, 0};  ///< Unit.
    glm::vec3 along{1, 0, 0};   ///< Roughly the midrib; need not stand at right angles to facing.
    float length_m = 0.1F;
    float width_m = 0.05F;
    glm::vec3 colour{0.05F, 0.1F, 0.02F};
    float ambient_visibility = 1;
};

void append_leaf(shapes::Mesh& mesh, const Leaf& leaf);

/// The same outline in one triangle, for leaves too far away for a fold to show.
void append_far_leaf(shapes::Mesh& mesh, const Leaf& leaf);

/// A size a little above the one asked for, out of eight steps an octave: what is built does not
/// change with every small change of the view.
[[nodiscard]] float stepped_size_m(float size_m) noexcept;

/// A ball of foliage with a dark inside.
struct Clump {
    glm::vec3 centre_m{0};
    float radius_m = 0.7F;
    glm::vec3 crown_m{0};  ///< Middle of the whole plant, which shades its own inside.
    float crown_radius_m = 2;
    glm::vec3 lit{0.1F, 0.15F, 0.03F};    ///< Of young leaves outside …
    glm::vec3 deep{0.02F, 0.04F, 0.01F};  ///< … and old ones inside.
    int key = 0;                          ///< Which clump it is, for chance.
};

/// Twenty triangles of dark core, and this many one-triangle leaves on the sides that a camera in
/// front can see.
void append_clump(shapes::Mesh& mesh, const Clump& clump, int leaves, float leaf_m);

/// Area of append_far_leaf()'s triangle over its length squared, for a width of 0.62 of the length.
inline constexpr float far_leaf_area = 0.5F * 0.62F * 0.945F;

}  // namespace backrow::setting
