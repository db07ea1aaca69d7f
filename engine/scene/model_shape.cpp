#include "scene/model_shape.h"

#include "scene/camera_view.h"

#include "base/units.h"

#include <glm/common.hpp>
#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <utility>

namespace backrow::scene {

ModelShape model_shape(std::vector<std::array<glm::vec3, 3>> triangles) {
    ModelShape shape{.triangles = std::move(triangles)};
    if (shape.triangles.empty())
        return shape;
    glm::vec3 least = shape.triangles.front()[0];
    glm::vec3 most = least;
    for (const auto& triangle : shape.triangles)
        for (const glm::vec3& corner : triangle) {
            least = glm::min(least, corner);
            most = glm::max(most, corner);
        }
    shape.lowest = least.y;
    shape.middle = (least + most) * 0.5f;
    for (const auto& triangle : shape.triangles)
        for (const glm::vec3& corner : triangle)
            shape.reach = std::max(shape.reach, glm::distance(corner, shape.middle));
    return shape;
}

glm::dmat4 world_from_model(const Model& model, double lowest) {
    glm::dmat4 world = glm::translate(glm::dmat4{1}, engine_from_mark(model.place));
    world = glm::rotate(world, rad_from_deg(model.turn_deg), glm::dvec3{0, 1, 0});
    world = glm::scale(world, glm::dvec3{model.scale});
    return glm::translate(world, glm::dvec3{0, -lowest, 0});
}

}  // namespace backrow::scene
