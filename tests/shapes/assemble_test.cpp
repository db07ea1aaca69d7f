#include "shapes/assemble.h"

#include "shapes/bounds.h"
#include "shapes/normals.h"
#include "shapes/primitives.h"

#include "solid_checks.h"

#include <catch2/catch.hpp>

#include <glm/gtc/matrix_transform.hpp>

using namespace backrow::shapes;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Mesh step() {
    return bevelled_box({0, 0, 0}, {1, 0.2F, 0.4F}, 0.01F, glm::vec3{0.4F});
}

}  // namespace

TEST_CASE("two meshes put together keep their own triangles", "[shapes][property]") {
    Mesh both = step();
    append(both, octahedron({5, 0, 0}, {1, 1, 1}, glm::vec3{1}));
    CHECK(triangle_count(both) == 52);
    CHECK(is_closed(both));
    CHECK_THAT(volume_m3(both), WithinRel(volume_m3(step()) + 4.0 / 3, 1e-5));
}

// A turn and a shift keep volume; a scaling multiplies it by its determinant; normals stay unit and
// at right angles to their faces, which a plain multiplication would not do where axes differ.
TEST_CASE("a moved, turned and stretched model keeps its outside outside", "[shapes][property]") {
    glm::dmat4 to_from = glm::translate(glm::dmat4{1}, {3, 1, -2});
    to_from = glm::rotate(to_from, 0.7, glm::dvec3{0, 1, 0});
    to_from = glm::scale(to_from, {2, 0.5, 3});
    const Mesh moved = transformed(step(), to_from);
    CHECK(is_closed(moved));
    CHECK_THAT(volume_m3(moved), WithinRel(3 * volume_m3(step()), 1e-5));
    CHECK(worst_normal_length_error(moved) < 1e-6);

    Mesh recomputed = moved;
    for (Vertex& vertex : recomputed.vertices)
        vertex.normal = {0, 0, 0};
    smooth_normals(recomputed);
    // The corners of a bevelled face lean over the bevel; they still agree to well within 60°.
    for (std::size_t i = 0; i < moved.vertices.size(); ++i) {
        CHECK(glm::dot(moved.vertices[i].normal, recomputed.vertices[i].normal) > 0.5F);
    }
}

TEST_CASE("a mirrored model is not turned inside out", "[shapes][property]") {
    const Mesh mirrored = transformed(step(), glm::scale(glm::dmat4{1}, {-1, 1, 1}));
    CHECK(is_closed(mirrored));
    CHECK_THAT(volume_m3(mirrored), WithinRel(volume_m3(step()), 1e-6));
}

TEST_CASE("a quad faces the side from which its corners run counter-clockwise",
          "[shapes][property]") {
    Mesh mesh;
    append_quad(mesh, {Vertex{.position_m = {0, 0, 0}}, Vertex{.position_m = {2, 0, 0}},
                       Vertex{.position_m = {2, 3, 0}}, Vertex{.position_m = {0, 3, 0}}});
    CHECK(triangle_count(mesh) == 2);
    smooth_normals(mesh);
    for (const Vertex& vertex : mesh.vertices)
        CHECK(vertex.normal == glm::vec3{0, 0, 1});
}

TEST_CASE("the box round nothing is nothing", "[shapes][property]") {
    CHECK_FALSE(bounds(Mesh{}));
}

// Of an icosahedron round the origin the normal in each corner points straight out, by symmetry.
TEST_CASE("smooth normals of a ball point away from its middle", "[shapes][property]") {
    Mesh ball = icosahedron({0, 0, 0}, 1, glm::vec3{1});
    for (Vertex& vertex : ball.vertices)
        vertex.normal = {0, 1, 0};
    smooth_normals(ball);
    for (const Vertex& vertex : ball.vertices) {
        CHECK_THAT(glm::dot(vertex.normal, vertex.position_m), WithinAbs(1, 1e-5));
    }
}

TEST_CASE("a vertex of no triangle keeps its normal", "[shapes][property]") {
    Mesh mesh;
    append(mesh, {.position_m = {0, 0, 0}, .normal = {1, 0, 0}});
    append(mesh, {.position_m = {1, 1, 1}, .normal = {0, 0, 1}});
    append_triangle(mesh, 0, 0, 0);
    smooth_normals(mesh);
    CHECK(mesh.vertices[0].normal == glm::vec3{1, 0, 0});
    CHECK(mesh.vertices[1].normal == glm::vec3{0, 0, 1});
}
