#include "piece_checks.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace backrow::setting;
namespace shapes = backrow::shapes;

namespace {

constexpr double rad = std::numbers::pi / 180;

float light_of(const shapes::Vertex& vertex) {
    return vertex.colour.r + vertex.colour.g + vertex.colour.b;
}

/// Mean light of the dome's vertices within 20° of a direction.
double light_towards(const shapes::Mesh& dome, double elevation_deg, double azimuth_deg) {
    const glm::dvec3 towards{std::sin(azimuth_deg * rad) * std::cos(elevation_deg * rad),
                             std::sin(elevation_deg * rad),
                             std::cos(azimuth_deg * rad) * std::cos(elevation_deg * rad)};
    double sum = 0;
    int count = 0;
    for (const shapes::Vertex& vertex : dome.vertices) {
        const glm::dvec3 at = glm::normalize(glm::dvec3{vertex.position_m});
        if (glm::dot(at, towards) < std::cos(20 * rad))
            continue;
        sum += static_cast<double>(light_of(vertex));
        ++count;
    }
    return sum / count;
}

}  // namespace

TEST_CASE("the sky is sound, unlit and within its budget at any hour", "[setting][property]") {
    for (const double elevation_deg : {-20.0, -4.0, 0.0, 5.0, 35.0, 90.0}) {
        const auto pieces = build_sky(elevation_deg, 200);
        CHECK(triangles_of(pieces) <= 3000);
        for (const Piece& piece : pieces) {
            CHECK(is_sound(piece.mesh));
            CHECK_FALSE(piece.material.lit);
            CHECK(piece.material.emission == glm::vec3{0});
        }
    }
}

TEST_CASE("the sky is seen from inside and stands beyond every backdrop", "[setting][property]") {
    const shapes::Mesh dome = together(build_sky(35, 140));
    for (std::size_t i = 0; i + 2 < dome.indices.size(); i += 3) {
        const glm::dvec3 a{dome.vertices[dome.indices[i]].position_m};
        const glm::dvec3 b{dome.vertices[dome.indices[i + 1]].position_m};
        const glm::dvec3 c{dome.vertices[dome.indices[i + 2]].position_m};
        REQUIRE(glm::dot(glm::cross(b - a, c - a), a) < 0);
        REQUIRE(glm::length((a + b + c) / 3.0) > 580);
    }
    // Its lower edge is under the ground all the way round.
    CHECK(shapes::bounds(dome)->low_m.y < -20);
    CHECK(covered_share(dome, 1, {-400, -400}, {400, 400}, 100) == 1);
}

// 0 behind the camera's back (+z), 90 at picture right (+x), 180 behind the group (−z).
TEST_CASE("the sky is brightest round the sun", "[setting][property]") {
    for (const double azimuth_deg : {0.0, 90.0, 140.0, 180.0, 270.0}) {
        const shapes::Mesh dome = together(build_sky(30, azimuth_deg));
        for (const double apart_deg : {70.0, 140.0, 220.0, 290.0}) {
            CHECK(light_towards(dome, 30, azimuth_deg) >
                  light_towards(dome, 30, azimuth_deg + apart_deg));
        }
    }
}

TEST_CASE("the sky is lighter low than high, and darker after sunset", "[setting][property]") {
    const shapes::Mesh noon = together(build_sky(45, 0));
    CHECK(light_towards(noon, 5, 180) > 1.3 * light_towards(noon, 75, 180));
    const shapes::Mesh night = together(build_sky(-9, 0));
    CHECK(light_towards(night, 20, 180) < 0.3 * light_towards(noon, 20, 180));
}
