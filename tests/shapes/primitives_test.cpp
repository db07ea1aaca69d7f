#include "shapes/primitives.h"

#include "shapes/assemble.h"
#include "shapes/bounds.h"

#include "solid_checks.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numbers>

using namespace backrow::shapes;
using Catch::Matchers::WithinRel;

namespace {

// Positions are floats of about a metre, so planes through them are off by a few times 2⁻²³.
constexpr double rounding_m = 1e-6;
constexpr glm::vec3 grey{0.5F};

}  // namespace

// Volume: the box less twelve edge prisms of b²/2 and with the eight corners counted by inclusion:
// a box with 45° bevels b is the box of sides a, c, d less 2b²(a + c + d) plus 8·(5/6)b³·… derived
// by cutting the corners: each removed corner cube b³ keeps a tetrahedron of b³/6, and each edge
// loses b²/2 over its length without the corners.
TEST_CASE("a bevelled step is solid, convex and exactly as large as asked", "[shapes][property]") {
    const glm::vec3 low{-1.5F, 0, -0.85F};
    const glm::vec3 high{0.5F, 0.4F, -0.25F};
    const Mesh step = bevelled_box(low, high, 0.02F, grey);
    CHECK(triangle_count(step) == 44);
    CHECK(is_closed(step));
    CHECK(bulge_m(step) < rounding_m);
    CHECK(worst_normal_length_error(step) < rounding_m);
    const auto box = bounds(step);
    REQUIRE(box);
    CHECK(box->low_m == low);
    CHECK(box->high_m == high);

    const double b = 0.02;
    const double a = 2.0;
    const double c = 0.4;
    const double d = 0.6;
    const double edges = 4 * (b * b / 2) * ((a - 2 * b) + (c - 2 * b) + (d - 2 * b));
    const double corners = 8 * (b * b * b - b * b * b / 6);
    CHECK_THAT(volume_m3(step), WithinRel(a * c * d - edges - corners, 1e-5));
}

TEST_CASE("a bevel too wide for the box is held to a third of it", "[shapes][property]") {
    const Mesh bar = bevelled_box({0, 0, 0}, {1, 0.02F, 0.02F}, 0.5F, grey);
    CHECK(bulge_m(bar) < rounding_m);
    CHECK(bounds(bar)->low_m == glm::vec3{0});
    CHECK(bounds(bar)->high_m == glm::vec3{1, 0.02F, 0.02F});
}

// Volumes of the regular solids: icosahedron of circumradius R, edge a = R/sin(2π/5), is
// 5(3 + √5)/12 a³; octahedron with half diagonals p, q, r is 4pqr/3.
TEST_CASE("bulbs and glints are closed convex solids of the right volume", "[shapes][property]") {
    const glm::vec3 centre{0.3F, 2.5F, -9};
    const Mesh bulb = icosahedron(centre, 0.02F, grey);
    CHECK(triangle_count(bulb) == 20);
    CHECK(is_closed(bulb));
    // At nine metres a float is a micrometre wide.
    CHECK(bulge_m(bulb) < 4 * rounding_m);
    const double edge_m = 0.02 / std::sin(2 * std::numbers::pi / 5);
    CHECK_THAT(volume_m3(bulb),
               WithinRel(5 * (3 + std::sqrt(5.0)) / 12 * std::pow(edge_m, 3), 0.01));

    const Mesh glint = octahedron({0, 0, 0}, {0.03F, 0.01F, 0.02F}, grey);
    CHECK(triangle_count(glint) == 8);
    CHECK(is_closed(glint));
    CHECK(bulge_m(glint) < rounding_m);
    CHECK_THAT(volume_m3(glint), WithinRel(4 * 0.03 * 0.01 * 0.02 / 3, 1e-5));
}

TEST_CASE("a rounder bulb stays closed and convex and comes nearer the ball",
          "[shapes][property]") {
    const glm::vec3 centre{1, 2, 3};
    const Mesh coarse = icosahedron(centre, 0.5F, grey);
    const Mesh fine = rounded(coarse, centre);
    CHECK(triangle_count(fine) == 80);
    CHECK(is_closed(fine));
    CHECK(bulge_m(fine) < 2 * rounding_m);
    const double ball = 4 * std::numbers::pi / 3 * 0.125;
    CHECK(volume_m3(fine) > volume_m3(coarse));
    CHECK(volume_m3(fine) < ball);
}

// A straight tube of n sides is a prism: area of the regular polygon n/2 r² sin(2π/n) times length.
TEST_CASE("a straight post is a closed prism whichever way it leans", "[shapes][property]") {
    for (const glm::vec3& along : {glm::vec3{0, 2, 0}, glm::vec3{2, 0, 0}, glm::vec3{0, 0, -2},
                                   glm::vec3{1.2F, -1.2F, 1.058F}}) {
        const std::array<Ring, 3> rings{
            {{{1, 1, 1}, 0.1F}, {glm::vec3{1} + 0.4F * along, 0.1F}, {glm::vec3{1} + along, 0.1F}}};
        const Mesh post = tube(rings, 7, grey);
        CHECK(is_closed(post));
        CHECK(worst_normal_length_error(post) < rounding_m);
        const double face = 3.5 * 0.01 * std::sin(2 * std::numbers::pi / 7);
        CHECK_THAT(volume_m3(post),
                   WithinRel(face * static_cast<double>(glm::length(along)), 1e-4));
    }
}

TEST_CASE("a bent cable stays closed and does not turn inside out", "[shapes][property]") {
    std::array<Ring, 12> rings{};
    for (std::size_t i = 0; i < rings.size(); ++i) {
        const float turn = 0.5F * static_cast<float>(i);
        rings[i] = {{std::cos(turn), std::sin(turn), 0.2F * turn}, 0.05F};
    }
    const Mesh cable = tube(rings, 5, grey);
    CHECK(is_closed(cable));
    CHECK(volume_m3(cable) > 0);
}
