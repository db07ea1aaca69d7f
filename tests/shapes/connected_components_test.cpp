#include "shapes/connected_components.h"

#include <catch2/catch.hpp>

using namespace backrow::shapes;

namespace {

void add_triangle(Mesh& mesh, float x, float size) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    for (const glm::vec3& corner :
         {glm::vec3{0, 0, 0}, glm::vec3{size, 0, 0.5f * size}, glm::vec3{0, size, size}}) {
        Vertex vertex;
        vertex.position_m = corner + glm::vec3{x, 0, 0};
        mesh.vertices.push_back(vertex);
    }
    mesh.indices.insert(mesh.indices.end(), {first, first + 1, first + 2});
}

}  // namespace

TEST_CASE("bulbs of one mesh are told apart", "[shapes][property]") {
    Mesh mesh;
    add_triangle(mesh, 0.0f, 1.0f);
    add_triangle(mesh, 5.0f, 2.0f);
    // A second triangle on the first one's edge belongs to it.
    mesh.vertices.push_back(mesh.vertices[0]);
    mesh.vertices.back().position_m = {-1, 0, 0};
    mesh.indices.insert(mesh.indices.end(), {0, 2, 6});
    const auto found = connected_components(mesh);
    REQUIRE(found.size() == 2);
    CHECK(found[0].centre_m.x == Approx(0.0f).margin(1e-6));
    CHECK(found[1].diameter_m == Approx(2.0f));
}

TEST_CASE("no triangles, no islands", "[shapes][property]") {
    CHECK(connected_components({}).empty());
}
