#include "render/light/cut_by_light.h"

#include <catch2/catch.hpp>

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

using namespace backrow::render;

namespace {

constexpr Ball ball{.centre_m = {0, 1, 0}, .radius_m = 4};

GpuVertex floor_vertex(float x, float z) {
    GpuVertex vertex{};
    vertex.position_m = {x, 0, z};
    vertex.normal = {0, 32767, 0, 0};
    return vertex;
}

// A floor of planks, each of two slivers with vertices of their own, as floors are laid.
LitMesh planks() {
    LitMesh mesh;
    for (int i = 0; i < 60; ++i) {
        const float left = 0.12f * static_cast<float>(i - 30);
        const float right = 0.12f * static_cast<float>(i - 29);
        const auto base = static_cast<std::uint32_t>(mesh.vertices.size());
        for (const auto& [x, z] : {std::pair{left, 30.0f}, std::pair{right, 30.0f},
                                   std::pair{right, -30.0f}, std::pair{left, -30.0f}})
            mesh.vertices.push_back(floor_vertex(x, z));
        mesh.triangles.push_back({{base, base + 1, base + 2}, 0});
        mesh.triangles.push_back({{base, base + 2, base + 3}, 0});
    }
    return mesh;
}

glm::vec4 grey(float light) {
    return {light, light, light, 0};
}

// Somebody's shadow: dark within 30 cm of a line.
float beside_a_shadow(const glm::vec3& at) {
    return std::abs(0.6f * at.x + 0.8f * at.z) < 0.3f && std::abs(at.x) < 2 ? 0.2f : 1.0f;
}

template <class Light>
LightAt light_by(Light light) {
    return [light](std::span<const GpuVertex> vertices) {
        std::vector<glm::vec4> found;
        for (const GpuVertex& vertex : vertices)
            found.push_back(grey(light(vertex.position_m)));
        return found;
    };
}

double area_m2(const LitMesh& mesh) {
    double sum = 0;
    for (const LitMesh::Triangle& triangle : mesh.triangles) {
        const auto at = [&](std::size_t i) {
            return glm::dvec3{mesh.vertices[triangle.corners[i]].position_m};
        };
        const glm::dvec3 across = glm::cross(at(1) - at(0), at(2) - at(0));
        REQUIRE(across.y > 0);  // none is turned over
        sum += 0.5 * glm::length(across);
    }
    return sum;
}

// The light that the mesh shows at a place on the floor, NaN where it has a hole.
float shown_at(const LitMesh& mesh, const glm::vec2& at) {
    const auto cross = [](const glm::vec2& a, const glm::vec2& b) { return a.x * b.y - a.y * b.x; };
    for (const LitMesh::Triangle& triangle : mesh.triangles) {
        const auto corner = [&](std::size_t i) {
            const glm::vec3& position = mesh.vertices[triangle.corners[i]].position_m;
            return glm::vec2{position.x, position.z};
        };
        const float whole = cross(corner(1) - corner(0), corner(2) - corner(0));
        const float b = cross(at - corner(0), corner(2) - corner(0)) / whole;
        const float c = cross(corner(1) - corner(0), at - corner(0)) / whole;
        if (b < 0 || c < 0 || b + c > 1)
            continue;
        return (1 - b - c) * mesh.light[triangle.corners[0]].x +
               b * mesh.light[triangle.corners[1]].x + c * mesh.light[triangle.corners[2]].x;
    }
    return std::nanf("");
}

}  // namespace

TEST_CASE("a shadow on a floor of planks is found and keeps its edge", "[render][property]") {
    LitMesh mesh = planks();
    const double before_m2 = area_m2(mesh);
    cut_where_light_bends(mesh, ball, light_by(beside_a_shadow));
    REQUIRE(mesh.light.size() == mesh.vertices.size());
    CHECK(area_m2(mesh) == Approx(before_m2).epsilon(1e-5));
    // Fine at the edge, coarse elsewhere: the floor at the fineness of its edge would take a
    // million.
    CHECK(mesh.triangles.size() < 60'000);

    std::mt19937 random{7};
    std::uniform_real_distribution<float> place{-1.5f, 1.5f};
    int wrong = 0;
    for (int i = 0; i < 300; ++i) {
        const glm::vec2 at{place(random), place(random)};
        const float from_edge_m = std::abs(std::abs(0.6f * at.x + 0.8f * at.y) - 0.3f);
        if (from_edge_m < 0.03f)
            continue;
        if (std::abs(shown_at(mesh, at) - beside_a_shadow({at.x, 0, at.y})) > 0.05f)
            ++wrong;
    }
    CHECK(wrong == 0);
}

// Every point that lies on an edge of a triangle is one of its corners: else rounding opens holes
// there, through which the sky shines. Planks have vertices of their own, so places are compared.
TEST_CASE("cutting opens no gap between triangles that met", "[render][property]") {
    LitMesh mesh = planks();
    cut_where_light_bends(mesh, ball, light_by(beside_a_shadow));
    const auto before = [](const glm::vec3& a, const glm::vec3& b) {
        return a.x != b.x ? a.x < b.x : a.z < b.z;
    };
    std::map<std::array<float, 4>, int> uses;
    for (const LitMesh::Triangle& triangle : mesh.triangles)
        for (std::size_t i = 0; i < 3; ++i) {
            glm::vec3 a = mesh.vertices[triangle.corners[i]].position_m;
            glm::vec3 b = mesh.vertices[triangle.corners[(i + 1) % 3]].position_m;
            if (before(b, a))
                std::swap(a, b);
            ++uses[{a.x, a.z, b.x, b.z}];
        }
    int open_inside = 0;
    for (const auto& [edge, count] : uses) {
        const bool at_rim = std::abs(edge[1]) == 30.0f && edge[1] == edge[3];
        const bool at_side = edge[0] == edge[2] && (edge[0] < -3.5f || edge[0] > 3.5f);
        open_inside += count == 1 && !at_rim && !at_side;
    }
    CHECK(open_inside == 0);
}

TEST_CASE("light that is straight, or that is not there, cuts nothing fine", "[render][property]") {
    for (const float slope : {0.0f, 0.02f}) {
        LitMesh mesh = planks();
        cut_where_light_bends(
            mesh, ball, light_by([slope](const glm::vec3& at) { return 1.0f + slope * at.x; }));
        CAPTURE(slope);
        CHECK(mesh.triangles.size() < 20'000);
    }
}

// Three points on a line, and two a hair beside it: halving them would never end.
TEST_CASE("slivers come to an end", "[render][property]") {
    LitMesh mesh;
    mesh.vertices = {floor_vertex(-0.3437f, -0.05f), floor_vertex(-0.3323f, -0.0333f),
                     floor_vertex(-0.3094f, 0.0f), floor_vertex(-0.332f, -0.0332f)};
    mesh.triangles = {{{0, 1, 2}, 0}, {{0, 2, 3}, 0}, {{1, 1, 2}, 0}};
    cut_where_light_bends(mesh, ball, light_by([](const glm::vec3& at) {
                              return std::sin(300.0f * at.x) > 0 ? 1.0f : 0.0f;
                          }));
    CHECK(mesh.triangles.size() < 300);
}

TEST_CASE("a triangle that shows the lens its back is lit on that side", "[render][property]") {
    LitMesh mesh;
    mesh.vertices = {floor_vertex(0, 0), floor_vertex(1, 0), floor_vertex(0, 1)};
    mesh.triangles = {{{0, 2, 1}, 0}};  // seen from above counter-clockwise
    face_the_lens(mesh, {0, 2, 0});
    CHECK(mesh.vertices.size() == 3);
    face_the_lens(mesh, {0, -2, 0});
    for (const std::uint32_t corner : mesh.triangles[0].corners)
        CHECK(mesh.vertices[corner].normal[1] == -32767);
}
