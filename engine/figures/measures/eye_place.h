#pragma once

// One eye's own measure, and the triangles that are built in it; for eyes.cpp and eye_hairs.cpp.

#include "figures/head/head_form.h"
#include "figures/head/head_mesh.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/vec2.hpp>

#include <cmath>
#include <cstdint>

namespace backrow::figures {

/// One eye: offsets from the pupil, + towards the temple and up, in modelled millimetres.
struct EyePlace {
    const PersonHead& head;
    double sign;          ///< +1 for the left eye.
    glm::dvec2 pupil{0};  ///< Where the eye looks, on the ball.
    glm::dvec2 slant{1};  ///< How much narrower and lower the iris then is.

    [[nodiscard]] glm::dvec3 plain(double dx, double y, double z) const {
        return head.figure_from_plain_model({sign * (model::pupil_x + dx), y, z});
    }
    [[nodiscard]] glm::dvec3 varied(double dx, double y, double z) const {
        return head.figure_from_model({sign * (model::pupil_x + dx), y, z});
    }
    [[nodiscard]] glm::dvec3 forward() const {
        return glm::normalize(plain(0, 0, model::cornea_z + 10) - plain(0, 0, model::cornea_z));
    }
    /// A small way from a point, free of the lids' motion.
    [[nodiscard]] glm::dvec3 way(double dx, double y, double z) const {
        return plain(dx, y, model::cornea_z + z) - plain(0, 0, model::cornea_z);
    }
    [[nodiscard]] double upper_edge(double dx) const { return upper_edge_y_mm(dx, head.motion()); }
    [[nodiscard]] double lower_edge(double dx) const { return lower_edge_y_mm(dx, head.motion()); }
};

inline std::uint32_t push(shapes::Mesh& mesh, const glm::dvec3& at, const glm::dvec3& normal,
                          const glm::dvec3& colour, double ambient_visibility,
                          const glm::vec2& uv = {}) {
    mesh.vertices.push_back({.position_m = glm::vec3(at),
                             .normal = glm::vec3(glm::normalize(normal)),
                             .colour = glm::vec3(glm::clamp(colour, glm::dvec3{0}, glm::dvec3{1})),
                             .ambient_visibility = static_cast<float>(ambient_visibility),
                             .uv = uv});
    return static_cast<std::uint32_t>(mesh.vertices.size() - 1);
}

/// A triangle that faces outwards on either side of the face: mirrored eyes turn the order round.
inline void triangle(shapes::Mesh& mesh, std::uint32_t a, std::uint32_t b, std::uint32_t c,
                     double sign) {
    if (sign > 0)
        mesh.indices.insert(mesh.indices.end(), {a, b, c});
    else
        mesh.indices.insert(mesh.indices.end(), {a, c, b});
}

/// −1 … 1, unrelated between neighbours; k tells waves apart.
inline double wave(int i, int k) {
    return std::sin(i * 2.399963 * (k + 1) + k * 1.3);
}

}  // namespace backrow::figures
