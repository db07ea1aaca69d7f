#include "piece_checks.h"

#include <catch2/catch.hpp>

using namespace backrow::setting;
namespace shapes = backrow::shapes;

namespace {

constexpr Block riser{
    .left_m = -2, .right_m = 1.5, .near_back_m = 0.5, .far_back_m = 1.25, .top_m = 0.2};
constexpr Block bench{.left_m = 0,
                      .right_m = 1.5,
                      .near_back_m = -0.25,
                      .far_back_m = 0.125,
                      .top_m = 0.45,
                      .kind = BlockKind::seat};

}  // namespace

TEST_CASE("a riser fills exactly the box that people were promised", "[setting][property]") {
    for (const Block& block : {riser, bench}) {
        const auto pieces = build_blocks({block});
        REQUIRE(pieces.size() == 1);
        CHECK(is_sound(pieces[0].mesh));
        const auto box = shapes::bounds(pieces[0].mesh);
        REQUIRE(box);
        CHECK(box->low_m == glm::vec3{glm::dvec3{block.left_m, 0, -block.far_back_m}});
        CHECK(box->high_m == glm::vec3{glm::dvec3{block.right_m, block.top_m, -block.near_back_m}});
    }
}

// Joints between stones are 3 mm, so at most a few in a thousand points over the top fall in one,
// and the rounded edge is not counted.
TEST_CASE("people stand on a riser, not in it", "[setting][property]") {
    const shapes::Mesh mesh = build_blocks({riser})[0].mesh;
    shapes::Mesh top;
    top.vertices = mesh.vertices;
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
        const auto is_at_top = [&](std::size_t corner) {
            return mesh.vertices[mesh.indices[i + corner]].position_m.y ==
                   static_cast<float>(riser.top_m);
        };
        if (is_at_top(0) && is_at_top(1) && is_at_top(2)) {
            shapes::append_triangle(top, mesh.indices[i], mesh.indices[i + 1], mesh.indices[i + 2]);
        }
    }
    CHECK(covered_share(top, 1, {riser.left_m + 0.01, -riser.far_back_m + 0.01},
                        {riser.right_m - 0.01, -riser.near_back_m - 0.01}, 300) > 0.985);
}

TEST_CASE("each stone of a step is a convex solid", "[setting][property]") {
    const auto stones = separate(build_blocks({riser, bench})[0].mesh);
    CHECK(stones.size() > 4);
    for (const shapes::Mesh& stone : stones)
        CHECK(is_convex_solid(stone, 1e-6));
}

TEST_CASE("the tread of a step stands out over what carries it", "[setting][property]") {
    const shapes::Mesh mesh = build_blocks({riser})[0].mesh;
    float foremost_below = -10;
    for (const shapes::Vertex& vertex : mesh.vertices) {
        if (vertex.position_m.y < 0.1F)
            foremost_below = std::max(foremost_below, vertex.position_m.z);
    }
    CHECK(foremost_below < -static_cast<float>(riser.near_back_m) - 0.005F);
}

// A child's seat was once taken for a step because it was low, and drawn as stone.
TEST_CASE("a seat of any height is of wood and stands on its own floor", "[setting][regression]") {
    for (const double height_m : {0.12, 0.25, 0.45, 0.70}) {
        Block seat = bench;
        seat.foot_m = 0.3;
        seat.top_m = seat.foot_m + height_m;
        const shapes::Mesh mesh = build_blocks({seat})[0].mesh;
        CAPTURE(height_m);
        CHECK(is_sound(mesh));
        const auto box = shapes::bounds(mesh);
        REQUIRE(box);
        CHECK(box->low_m.y == Approx(seat.foot_m));
        CHECK(box->high_m.y == Approx(seat.top_m));
        for (const shapes::Vertex& vertex : mesh.vertices)
            CHECK(vertex.colour.r > 2 * vertex.colour.b);
        // Under it one sees through between the legs.
        double solid_m = 0;
        for (const shapes::Mesh& part : separate(mesh)) {
            const auto bounds = shapes::bounds(part);
            REQUIRE(bounds);
            if (bounds->low_m.y < seat.foot_m + 0.01)
                solid_m += bounds->high_m.x - bounds->low_m.x;
        }
        CHECK(solid_m < 0.4);
        CHECK(solid_m > 0.05);
    }
}

TEST_CASE("a seat is of other stuff than a step", "[setting][property]") {
    const auto redness = [](const Block& block) {
        const shapes::Mesh mesh = build_blocks({block})[0].mesh;
        const glm::vec3 colour = mesh.vertices.front().colour;
        return colour.r / colour.b;
    };
    CHECK(redness(bench) > 1.5F * redness(riser));
}

TEST_CASE("even a sliver of a block stays a solid within its box", "[setting][property]") {
    const auto pieces = build_blocks(
        {{.left_m = 0, .right_m = 0.02, .near_back_m = 0, .far_back_m = 0.01, .top_m = 0.015},
         {.left_m = 1,
          .right_m = 1.02,
          .near_back_m = 0,
          .far_back_m = 0.01,
          .top_m = 0.015,
          .kind = BlockKind::seat}});
    REQUIRE(pieces.size() == 1);
    CHECK(is_sound(pieces[0].mesh));
    for (const shapes::Mesh& part : separate(pieces[0].mesh))
        CHECK(is_convex_solid(part, 1e-6));
}

TEST_CASE("no blocks, nothing to draw", "[setting][property]") {
    CHECK(build_blocks({}).empty());
}
