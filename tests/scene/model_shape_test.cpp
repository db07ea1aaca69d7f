#include "scene/model_shape.h"

#include <catch2/catch.hpp>

#include <glm/geometric.hpp>
#include <glm/vec4.hpp>

using namespace backrow;
using namespace backrow::scene;

TEST_CASE("a placed model stands with its lowest point at its height", "[stage][property]") {
    const glm::dmat4 world =
        world_from_model({.file = {}, .place = {1, 0.25, 2}, .scale = 3}, -0.5);
    const auto at = [&](double x, double y, double z) {
        return glm::dvec3{world * glm::dvec4{x, y, z, 1}};
    };
    // Sums of numbers near 1 in doubles.
    CHECK(glm::distance(at(0, -0.5, 0), {1, 0.25, -2}) < 1e-12);
    CHECK(glm::distance(at(0, 0.5, 0), {1, 3.25, -2}) < 1e-12);
    CHECK(glm::distance(at(1, -0.5, 1), {4, 0.25, 1}) < 1e-12);
}

TEST_CASE("a model turns like a person, + towards picture right", "[stage][property]") {
    const glm::dmat4 world = world_from_model({.file = {}, .place = {}, .turn_deg = 90}, 0);
    CHECK(glm::distance(glm::dvec3{world * glm::dvec4{0, 0, 1, 0}}, {1, 0, 0}) < 1e-12);
}

TEST_CASE("a shape knows its lowest point and a ball round all of it", "[scene][property]") {
    const ModelShape shape =
        model_shape({{{{0, 1, 0}, {4, 1, 0}, {0, 1, 2}}}, {{{0, -3, 0}, {4, 1, 0}, {0, 1, -2}}}});
    CHECK(shape.lowest == -3);
    for (const auto& triangle : shape.triangles)
        for (const glm::vec3& corner : triangle)
            CHECK(glm::distance(corner, shape.middle) <= shape.reach * (1 + 1e-6f));
    CHECK(model_shape({}).triangles.empty());
}
