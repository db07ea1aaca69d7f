#pragma once

// What is laid on the front of a garment from the front: plackets, lapels, ties, pockets, buttons.

#include "figures/posture/skeleton.h"

#include "shapes/field.h"
#include "shapes/mesh.h"

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <array>
#include <vector>

namespace backrow::figures {

/// A sheet over the chest: points across and up the trunk from the hips, metres.
struct Chest {
    const Skeleton& skeleton;
    const shapes::Field& field;
    double stature_m;
    bool is_close;

    /// The point of the garment before `at_m`, lift_m off it. What would stand above the shoulder
    /// lies on it.
    [[nodiscard]] glm::dvec3 on(glm::dvec2 at_m, double lift_m) const;

    /// A strip between two lines, `across` points wide, from the first pair down.
    void strip(const std::vector<std::array<glm::dvec2, 2>>& pairs, int across, double lift_m,
               const glm::dvec3& colour, double ambient_visibility, shapes::Mesh& onto) const;

    void button(const glm::dvec2& at_m, double radius_m, const glm::dvec3& colour,
                shapes::Mesh& onto) const;
};

}  // namespace backrow::figures
