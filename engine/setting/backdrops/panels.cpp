#include "setting/backdrops/panels.h"

#include <glm/geometric.hpp>

namespace backrow::setting {

glm::vec3 Panel::facing() const noexcept {
    return glm::normalize(glm::cross(across_m, up_m));
}

void append_panel(shapes::Mesh& mesh, const Panel& panel, const Paint& low, const Paint& high) {
    const glm::vec3 normal = panel.facing();
    const auto corner = [&](float across, float up, const Paint& paint) {
        return shapes::Vertex{.position_m = panel.at(across, up),
                              .normal = normal,
                              .colour = paint.colour,
                              .ambient_visibility = paint.ambient_visibility};
    };
    shapes::append_quad(
        mesh, {corner(0, 0, low), corner(1, 0, low), corner(1, 1, high), corner(0, 1, high)});
}

void append_panel(shapes::Mesh& mesh, const Panel& panel, const Paint& paint) {
    append_panel(mesh, panel, paint, paint);
}

void append_box(shapes::Mesh& mesh, const glm::vec3& low_m, const glm::vec3& high_m,
                const Paint& paint) {
    const glm::vec3 size = high_m - low_m;
    const glm::vec3 x{size.x, 0, 0};
    const glm::vec3 y{0, size.y, 0};
    const glm::vec3 z{0, 0, size.z};
    append_panel(mesh, {low_m + z, x, y}, paint);
    append_panel(mesh, {low_m, z, y}, paint);
    append_panel(mesh, {low_m + z + x, -z, y}, paint);
    append_panel(mesh, {low_m + z + y, x, -z}, paint);
}

}  // namespace backrow::setting
