#include "setting/backdrops/photograph.h"

#include "piece_checks.h"

#include "setting/backdrops/light_spots.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow::setting;
using backrow::Image;
using backrow::Rgba8;
using Catch::Matchers::WithinRel;
namespace shapes = backrow::shapes;

namespace {

constexpr Rgba8 dusk{40, 50, 80};
constexpr Rgba8 white{255, 255, 255};

/// A dusk with one white patch.
Image<Rgba8> dusk_with(int left, int top, int width, int height) {
    Image<Rgba8> picture{200, 100, dusk};
    for (int y = top; y < top + height; ++y) {
        for (int x = left; x < left + width; ++x)
            picture.at(x, y) = white;
    }
    return picture;
}

float area_px(const LightSpot& spot) {
    return octagon_area * glm::length(spot.long_axis_px) * glm::length(spot.short_axis_px);
}

}  // namespace

// The step is 0 at its foot and 1 at white by definition, and ½ half way.
TEST_CASE("what is below nearly white stays, and white grows by the gain", "[setting][property]") {
    CHECK(times_brighter(0.5F, 8) == 1);
    CHECK(times_brighter(nearly_white, 8) == 1);
    CHECK(times_brighter(1, 8) == 8);
    CHECK(times_brighter(1, 1) == 1);
    CHECK(std::abs(times_brighter((nearly_white + 1) / 2, 8) - 4.5F) < 1e-4F);
}

// A patch of 4 × 2 pixels at white: 8 pixels' area, its middle where it lies, lying, and 8 times
// white. Tolerance: float rounding.
TEST_CASE("a lamp in a photograph keeps its place, size and light", "[setting][property]") {
    const auto spots = light_spots(dusk_with(50, 30, 4, 2), 8);
    REQUIRE(spots.size() == 1);
    CHECK_THAT(spots[0].middle_px.x, WithinRel(52.0F, 1e-5F));
    CHECK_THAT(spots[0].middle_px.y, WithinRel(31.0F, 1e-5F));
    CHECK_THAT(area_px(spots[0]), WithinRel(8.0F, 1e-4F));
    CHECK(std::abs(spots[0].long_axis_px.x) > std::abs(spots[0].short_axis_px.y));
    CHECK_THAT(spots[0].light.r, WithinRel(8.0F, 1e-5F));
}

// One twenty-fifth of the shorter side, 100 pixels, is 4 pixels.
TEST_CASE("a white wall is no lamp", "[setting][property]") {
    CHECK(light_spots(dusk_with(50, 30, 4, 4), 8).size() == 1);
    CHECK(light_spots(dusk_with(50, 30, 5, 4), 8).empty());
    CHECK(light_spots(Image<Rgba8>{60, 40, white}, 8).empty());
    CHECK(light_spots(Image<Rgba8>{60, 40, dusk}, 8).empty());
}

TEST_CASE("of too many lamps the strongest are kept", "[setting][property]") {
    Image<Rgba8> picture{200, 100, dusk};
    for (int y = 1; y < 99; y += 3) {
        for (int x = 1; x < 199; x += 3)
            picture.at(x, y) = white;
    }
    picture.at(151, 61) = white;  // Two pixels and a third beside them: the largest.
    picture.at(152, 61) = white;
    const auto spots = light_spots(picture, 8);
    CHECK(spots.size() == most_lights);
    CHECK(std::ranges::any_of(spots, [](const LightSpot& spot) { return area_px(spot) > 1.5F; }));
}

// 200 × 100 pixels, 6 m wide: 3 m high. A lamp whose middle is 52 pixels from the left and 31 from
// the top stands at 52 · 0.03 − 3 m across and 3 + 0.5 − 31 · 0.03 m up.
TEST_CASE("a photograph stands as wide and where it is said to", "[setting][property]") {
    Photograph photograph;
    photograph.width_m = 6;
    photograph.across_m = 1;
    photograph.up_m = 0.5;
    const auto pieces = build_photograph(photograph, 9, dusk_with(50, 30, 4, 2), 3);
    REQUIRE(pieces.size() == 2);
    CHECK(pieces[0].material.texture == 3);
    CHECK_FALSE(pieces[0].material.lit);
    const auto plane = shapes::bounds(pieces[0].mesh);
    REQUIRE(plane);
    CHECK(glm::length(plane->low_m - glm::vec3{-2, 0.5F, -9}) < 1e-5F);
    CHECK(glm::length(plane->high_m - glm::vec3{4, 3.5F, -9}) < 1e-5F);

    CHECK(pieces[1].is_highlight);
    CHECK(is_sound(pieces[1].mesh));
    const auto lamp = shapes::bounds(pieces[1].mesh);
    REQUIRE(lamp);
    const glm::vec3 middle_m = (lamp->low_m + lamp->high_m) / 2.0F;
    CHECK(glm::length(middle_m - glm::vec3{-0.44F, 2.57F, -8.99F}) < 1e-4F);
    for (const Piece& piece : pieces) {
        for (std::size_t i = 0; i + 2 < piece.mesh.indices.size(); i += 3) {
            const glm::vec3 a = piece.mesh.vertices[piece.mesh.indices[i]].position_m;
            const glm::vec3 b = piece.mesh.vertices[piece.mesh.indices[i + 1]].position_m;
            const glm::vec3 c = piece.mesh.vertices[piece.mesh.indices[i + 2]].position_m;
            CHECK(glm::cross(b - a, c - a).z > 0);  // Seen from the camera.
        }
    }
}

TEST_CASE("a panorama is seen from inside, its middle where it is turned to",
          "[setting][property]") {
    // A lamp in the middle column, at 18° above the horizon (row 40 of 100).
    const auto pieces = build_panorama(dusk_with(99, 39, 2, 2), 90, 0);
    REQUIRE(pieces.size() == 2);
    const shapes::Mesh& ball = pieces[0].mesh;
    CHECK(is_sound(ball));
    CHECK(shapes::triangle_count(ball) < 10000);
    for (std::size_t i = 0; i + 2 < ball.indices.size(); i += 3) {
        const glm::dvec3 a{ball.vertices[ball.indices[i]].position_m};
        const glm::dvec3 b{ball.vertices[ball.indices[i + 1]].position_m};
        const glm::dvec3 c{ball.vertices[ball.indices[i + 2]].position_m};
        REQUIRE(glm::dot(glm::cross(b - a, c - a), a) < 0);
    }
    const auto lamp = shapes::bounds(pieces[1].mesh);
    REQUIRE(lamp);
    const glm::vec3 towards = glm::normalize(lamp->low_m + lamp->high_m);
    CHECK(towards.x > 0.94F);
    CHECK(std::abs(towards.z) < 0.01F);
    CHECK(std::abs(towards.y - std::sin(18 * std::acos(-1.0F) / 180)) < 0.01F);
    const glm::vec3 a = pieces[1].mesh.vertices[0].position_m;
    const glm::vec3 b = pieces[1].mesh.vertices[1].position_m;
    const glm::vec3 c = pieces[1].mesh.vertices[2].position_m;
    CHECK(glm::dot(glm::cross(b - a, c - a), a) < 0);
}
