#include "piece_checks.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow::setting;
namespace shapes = backrow::shapes;

namespace {

constexpr std::array all_grounds{Ground::grass, Ground::paving, Ground::sand, Ground::boards};

}  // namespace

TEST_CASE("every ground is sound and within its budget", "[setting][property]") {
    for (const Ground kind : all_grounds) {
        const auto pieces = build_ground(kind);
        CAPTURE(static_cast<int>(kind));
        for (const Piece& piece : pieces) {
            CHECK(is_sound(piece.mesh));
            CHECK_FALSE(piece.is_highlight);
        }
        CHECK(triangles_of(pieces) <= 25000);
    }
}

TEST_CASE("the ground reaches to the sky without a hole", "[setting][property]") {
    for (const Ground kind : all_grounds) {
        CAPTURE(static_cast<int>(kind));
        const shapes::Mesh ground = together(build_ground(kind));
        CHECK(covered_share(ground, 1, {-420, -420}, {420, 420}, 400) == 1);
        CHECK(covered_share(ground, 1, {-12, -20}, {12, 9}, 400) == 1);
        const auto sky = shapes::bounds(together(build_sky(35, 140)));
        const auto box = shapes::bounds(ground);
        REQUIRE((sky && box));
        CHECK(box->low_m.x < sky->low_m.x);
        CHECK(box->high_m.x > sky->high_m.x);
        CHECK(box->low_m.z < sky->low_m.z);
        CHECK(box->high_m.z > sky->high_m.z);
    }
}

// Nobody's shoes may vanish: blades end under 6 cm; nothing else rises above the soles. Joints and
// ripples stay within the 3 cm that water and blocks leave them.
TEST_CASE("the ground lies at the soles of the shoes", "[setting][property]") {
    for (const Ground kind : all_grounds) {
        CAPTURE(static_cast<int>(kind));
        const auto box = shapes::bounds(together(build_ground(kind)));
        REQUIRE(box);
        CHECK(box->high_m.y <= (kind == Ground::grass ? 0.06F : 0.001F));
        CHECK(box->low_m.y >= -0.03F);
    }
}

TEST_CASE("sheets of ground face up", "[setting][property]") {
    for (const Ground kind : {Ground::paving, Ground::sand, Ground::boards}) {
        const shapes::Mesh ground = together(build_ground(kind));
        for (std::size_t i = 0; i + 2 < ground.indices.size(); i += 3) {
            const glm::dvec3 a{ground.vertices[ground.indices[i]].position_m};
            const glm::dvec3 b{ground.vertices[ground.indices[i + 1]].position_m};
            const glm::dvec3 c{ground.vertices[ground.indices[i + 2]].position_m};
            REQUIRE(glm::cross(b - a, c - a).y >= 0);
        }
    }
}

// Far away detail is finer than a pixel; there colours may differ at most half as much as at the
// mark, where they must differ by more than the eye passes over (a fifth).
TEST_CASE("the ground is lively at the mark and calm in the distance", "[setting][property]") {
    for (const Ground kind : all_grounds) {
        CAPTURE(static_cast<int>(kind));
        float least_near = 1;
        float most_near = 0;
        float least_far = 1;
        float most_far = 0;
        for (const shapes::Vertex& vertex : together(build_ground(kind)).vertices) {
            const float away_m = std::hypot(vertex.position_m.x, vertex.position_m.z);
            float& least = away_m < 3 ? least_near : least_far;
            float& most = away_m < 3 ? most_near : most_far;
            if (away_m >= 3 && away_m < 60)
                continue;
            least = std::min(least, vertex.colour.g);
            most = std::max(most, vertex.colour.g);
        }
        CHECK(most_far - least_far < 0.5F * (most_near - least_near));
        CHECK(most_near > 1.2F * least_near);
    }
}
