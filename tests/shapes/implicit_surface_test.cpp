#include "shapes/implicit_surface.h"

#include <catch2/catch.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numbers>
#include <utility>

using namespace backrow::shapes;
using glm::dvec3;

namespace {

double ball(const dvec3& p) {
    return glm::length(p) - 1.0;
}

}  // namespace

// A ball of radius 1 in cells of a tenth. One step along the gradient leaves an error of second
// order in the cell: under a hundredth.
TEST_CASE("a ball's surface net lies on the ball and faces outwards", "[shapes][property]") {
    const Mesh mesh = surface_nets(ball, {dvec3{-1.25}, dvec3{1.25}, dvec3{0.1, 0.13, 0.1}});
    REQUIRE(mesh.indices.size() > 300);
    double furthest = 0, turned = 1;
    for (const Vertex& v : mesh.vertices) {
        furthest = std::max(furthest, std::abs(ball(dvec3{v.position_m})));
        turned = std::min(turned, glm::dot(dvec3{v.normal}, glm::normalize(dvec3{v.position_m})));
    }
    CHECK(furthest < 0.01);
    CHECK(turned > 0.999);

    // Closed: every edge belongs to two triangles, once in each direction.
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> edges;
    double volume = 0;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        for (std::size_t e = 0; e < 3; ++e)
            ++edges[{mesh.indices[i + e], mesh.indices[i + (e + 1) % 3]}];
        const dvec3 a{mesh.vertices[mesh.indices[i]].position_m};
        const dvec3 b{mesh.vertices[mesh.indices[i + 1]].position_m};
        const dvec3 c{mesh.vertices[mesh.indices[i + 2]].position_m};
        volume += glm::dot(a, glm::cross(b, c)) / 6;
    }
    const bool closed = std::all_of(edges.begin(), edges.end(), [&](const auto& edge) {
        const auto back = edges.find({edge.first.second, edge.first.first});
        return edge.second == 1 && back != edges.end() && back->second == 1;
    });
    CHECK(closed);
    // Flat triangles cut the corners off: edge² / (8 radius) of depth, some 0.3 % of the radius, so
    // 1 % of the volume. Positive only if the triangles face outwards.
    CHECK(volume == Approx(4 * std::numbers::pi / 3).epsilon(0.015));
}

TEST_CASE("an empty field has no surface", "[shapes][property]") {
    const auto nowhere = [](const dvec3&) { return 1.0; };
    CHECK(surface_nets(nowhere, {dvec3{-1}, dvec3{1}, dvec3{0.2}}).indices.empty());
}
