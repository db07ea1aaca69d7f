#include "piece_checks.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <vector>

using namespace backrow::setting;
namespace shapes = backrow::shapes;

namespace {

struct Kind {
    BackdropKind kind;
    const char* name;
    std::size_t budget;  // Triangles
};
constexpr std::array kinds{
    Kind{BackdropKind::wall, "wall", 12000},    Kind{BackdropKind::hedge, "hedge", 45000},
    Kind{BackdropKind::trees, "trees", 60000},  Kind{BackdropKind::lights, "lights", 13000},
    Kind{BackdropKind::water, "water", 12000},  Kind{BackdropKind::bookshelf, "bookshelf", 45000},
    Kind{BackdropKind::hall, "hall", 8000},     Kind{BackdropKind::beach, "beach", 20000},
    Kind{BackdropKind::street, "street", 23000}};

/// Views from a long lens near by to a wide lens far off, and one past all sense.
const std::array reaches{
    Reach{.left_m = -5.6, .right_m = 5.6, .top_m = 4.8, .lens_to_backdrop_m = 13.5},
    Reach{.left_m = -1.5, .right_m = 1.4, .top_m = 2.4, .lens_to_backdrop_m = 8},
    Reach{.left_m = -6, .right_m = 14, .top_m = 12, .lens_to_backdrop_m = 12},
    Reach{.left_m = -30, .right_m = 30, .top_m = 20, .lens_to_backdrop_m = 40},
    Reach{.left_m = -200, .right_m = 150, .top_m = 100, .lens_to_backdrop_m = 60},
    Reach{.left_m = -5.6,
          .right_m = 5.6,
          .top_m = 4.8,
          .lens_to_backdrop_m = 13.5,
          .sun_azimuth_deg = 180,
          .sun_elevation_deg = 20}};

const Reach usual = reaches[0];

}  // namespace

TEST_CASE("every backdrop is sound, within its budget and behind its line, in every view",
          "[setting][property]") {
    for (const Kind& kind : kinds) {
        for (const Reach& reach : reaches) {
            CAPTURE(kind.name, reach.left_m, reach.right_m);
            const auto pieces = build_backdrop({kind.kind, 9}, reach);
            CHECK(triangles_of(pieces) <= kind.budget);
            CHECK(triangles_of(pieces) > 500);
            for (const Piece& piece : pieces) {
                CHECK(is_sound(piece.mesh));
                CHECK_FALSE(piece.mesh.indices.empty());
            }
            // A quay, a coping and leaves may stand half a metre out.
            CHECK(shapes::bounds(together(pieces))->high_m.z < -8.5F);
        }
    }
}

TEST_CASE("the same view is built of the same triangles", "[setting][property]") {
    for (const Kind& kind : kinds) {
        CAPTURE(kind.name);
        const auto one = build_backdrop({kind.kind, 7.3}, usual);
        const auto again = build_backdrop({kind.kind, 7.3}, usual);
        REQUIRE(one.size() == again.size());
        for (std::size_t i = 0; i < one.size(); ++i) {
            CHECK(one[i].mesh.indices == again[i].mesh.indices);
            REQUIRE(one[i].mesh.vertices.size() == again[i].mesh.vertices.size());
            for (std::size_t v = 0; v < one[i].mesh.vertices.size(); ++v) {
                REQUIRE(one[i].mesh.vertices[v].position_m == again[i].mesh.vertices[v].position_m);
                REQUIRE(one[i].mesh.vertices[v].colour == again[i].mesh.vertices[v].colour);
            }
        }
    }
}

// Opening the lens widens the margin for blur a little; the picture must not change because of it.
// The narrower view's lamps all hang in the wider one too.
TEST_CASE("lamps stay where they hang when the view widens", "[setting][property]") {
    const auto places = [](const Reach& reach) {
        std::set<std::array<float, 3>> found;
        for (const Piece& piece : build_backdrop({BackdropKind::lights, 9}, reach)) {
            if (!piece.is_highlight)
                continue;
            for (const shapes::Vertex& vertex : piece.mesh.vertices) {
                found.insert({vertex.position_m.x, vertex.position_m.y, vertex.position_m.z});
            }
        }
        return found;
    };
    Reach wider = usual;
    wider.left_m -= 0.2;
    wider.right_m += 0.2;
    const auto narrow = places(usual);
    const auto wide = places(wider);
    CHECK_FALSE(narrow.empty());
    CHECK(std::includes(wide.begin(), wide.end(), narrow.begin(), narrow.end()));
}

TEST_CASE("a hedge and a wall fill the view up to their height", "[setting][property]") {
    for (const BackdropKind kind : {BackdropKind::hedge, BackdropKind::wall}) {
        for (const Reach& reach : {reaches[0], reaches[1], reaches[3]}) {
            CAPTURE(static_cast<int>(kind), reach.right_m);
            const shapes::Mesh mesh = together(build_backdrop({kind, 9}, reach));
            // Between 1.8 and 2.4 m high; the clipped top is rough to about a hand's breadth.
            const double height_m = std::clamp(reach.top_m, 1.8, 2.4) - 0.25;
            CHECK(covered_share(mesh, 2, {reach.left_m, 0}, {reach.right_m, height_m}, 250) == 1);
            CHECK(shapes::bounds(mesh)->high_m.y < 2.75F);
        }
    }
}

// Courses are 65 mm bricks and 10 mm joints, and bricks are 215 mm long [BS3921], from memory. The
// bricks of the front are the parts of four vertices in the plane of the wall's face, which wanders
// by 2 mm. Tolerance: float rounding at ten metres, 1 µm.
TEST_CASE("a wall is laid in courses of 75 mm", "[setting][from-memory]") {
    const shapes::Mesh wall = together(build_backdrop({BackdropKind::wall, 9}, usual));
    int bricks = 0;
    std::set<long> courses;
    for (const shapes::Mesh& part : separate(wall)) {
        const auto box = shapes::bounds(part);
        if (part.vertices.size() != 4 || box->low_m.z < -9.0021F || box->high_m.z > -8.9999F)
            continue;
        ++bricks;
        const double height_m = static_cast<double>(box->high_m.y - box->low_m.y);
        const double length_m = static_cast<double>(box->high_m.x - box->low_m.x);
        REQUIRE(std::abs(height_m - 0.065) < 2e-6);
        // Whole bricks, and halves at the ends of every other course.
        REQUIRE((std::abs(length_m - 0.215) < 4e-6 || length_m < 0.11));
        const double course = (static_cast<double>(box->low_m.y) - 0.005) / 0.075;
        REQUIRE(std::abs(course - std::round(course)) < 1e-4);
        courses.insert(std::lround(course));
    }
    CHECK(bricks > 1000);
    // 31 courses and a coping of 75 mm: 2.4 m.
    CHECK(courses.size() == 31);
    CHECK(std::abs(shapes::bounds(wall)->high_m.y - 2.4F) < 1e-5F);
}

TEST_CASE("lamps are closed convex bulbs of 30 to 50 mm, overhead and along the fence",
          "[setting][property]") {
    int bulbs = 0;
    int overhead = 0;
    int behind_heads = 0;
    for (const Piece& piece : build_backdrop({BackdropKind::lights, 9}, usual)) {
        if (!piece.is_highlight)
            continue;
        CHECK(piece.material.base_colour == glm::vec3{0});
        CHECK(piece.material.emission.r >= 15);
        CHECK(piece.material.emission.r <= 60);
        CHECK(piece.material.emission.r > 2 * piece.material.emission.b);
        for (const shapes::Mesh& bulb : separate(piece.mesh)) {
            ++bulbs;
            CHECK(is_convex_solid(bulb, 4e-6));
            const auto box = shapes::bounds(bulb);
            const float width_m = box->high_m.x - box->low_m.x;
            CHECK(width_m > 0.027F);  // An icosahedron is narrower than the ball round it.
            CHECK(width_m < 0.050F);
            CHECK(box->low_m.y > 1.3F);
            CHECK(box->high_m.y < 4.5F);
            (box->low_m.y > 1.9F ? overhead : behind_heads) += 1;
        }
    }
    CHECK(bulbs > 60);
    CHECK(overhead > 40);
    // Faces of standing people are between 1.3 and 1.9 m up; some lamps must be behind them.
    CHECK(behind_heads > 15);
}

TEST_CASE("glints are closed convex solids just above the water", "[setting][property]") {
    int glints = 0;
    for (const Piece& piece : build_backdrop({BackdropKind::water, 9}, reaches[5])) {
        if (!piece.is_highlight)
            continue;
        CHECK(piece.material.base_colour == glm::vec3{0});
        CHECK(piece.material.emission.r >= 10);
        CHECK(piece.material.emission.r <= 40);
        for (const shapes::Mesh& glint : separate(piece.mesh)) {
            ++glints;
            // At a few hundred metres a float is 0.03 mm.
            CHECK(is_convex_solid(glint, 1e-4));
            const auto box = shapes::bounds(glint);
            CHECK(box->low_m.y > 0.02F);
            CHECK(box->high_m.y < 0.5F);
        }
    }
    CHECK(glints > 50);
}

// Waves mirror the sun towards the lens where the sun stands over the water; with the sun at the
// photographer's back there is next to nothing to mirror.
TEST_CASE("water glitters under the sun", "[setting][property]") {
    const auto glints = [](double sun_azimuth_deg) {
        Reach reach = usual;
        reach.sun_azimuth_deg = sun_azimuth_deg;
        std::size_t triangles = 0;
        for (const Piece& piece : build_backdrop({BackdropKind::water, 9}, reach)) {
            if (piece.is_highlight)
                triangles += shapes::triangle_count(piece.mesh);
        }
        return triangles;
    };
    CHECK(glints(180) > 3 * glints(0));
    CHECK(glints(165) > glints(140));
}

TEST_CASE("water lies two centimetres above the ground and reaches far", "[setting][property]") {
    const auto pieces = build_backdrop({BackdropKind::water, 9}, usual);
    const auto surface = shapes::bounds(pieces.front().mesh);
    REQUIRE(surface);
    CHECK(surface->low_m.y == 0.02F);
    CHECK(surface->high_m.y == 0.02F);
    CHECK(surface->high_m.z == -9);
    CHECK(surface->low_m.z < -300);
    CHECK(covered_share(pieces.front().mesh, 1, {-100, -300}, {100, -9}, 200) == 1);
}

TEST_CASE("trees are as tall as garden trees, and the sky shows between them",
          "[setting][property]") {
    Reach tall = usual;
    tall.top_m = 12;
    const shapes::Mesh trees = together(build_backdrop({BackdropKind::trees, 9}, tall));
    const float top_m = shapes::bounds(trees)->high_m.y;
    CHECK(top_m > 5);
    CHECK(top_m < 9.5F);
    const double crowns = covered_share(trees, 2, {-5.6, 3}, {5.6, 5}, 300);
    CHECK(crowns > 0.5);
    CHECK(crowns < 0.999);
}

TEST_CASE("a plastered wall fills the view, and a bookshelf, a hall and a street leave no gap",
          "[setting][property]") {
    for (const Reach& reach : {reaches[0], reaches[1], reaches[3]}) {
        for (const Backdrop& backdrop :
             {Backdrop{.kind = BackdropKind::wall, .finish = Finish::plaster},
              Backdrop{.kind = BackdropKind::bookshelf}, Backdrop{.kind = BackdropKind::hall},
              Backdrop{.kind = BackdropKind::street}}) {
            CAPTURE(static_cast<int>(backdrop.kind), reach.right_m);
            const auto pieces = build_backdrop(backdrop, reach);
            // A street has sky over its roofs, from two storeys up.
            const double top_m = backdrop.kind == BackdropKind::street ? 2.9 : reach.top_m;
            CHECK(covered_share(together(pieces), 2, {reach.left_m, 0}, {reach.right_m, top_m},
                                250) == 1);
            for (const Piece& piece : pieces)
                CHECK(is_sound(piece.mesh));
        }
    }
}

// Spines are the upright panels that face the camera and have rounded edges; a shelf's boards are
// 335 mm apart and 24 mm thick, over a plinth of 90 mm. Tolerance: float rounding at ten metres, 1
// µm.
TEST_CASE("books of many widths, heights and colours stand on their boards and under the next",
          "[setting][property]") {
    const auto pieces = build_backdrop({BackdropKind::bookshelf, 9}, usual);
    std::set<int> widths_mm;
    std::set<int> heights_mm;
    std::set<std::array<float, 3>> colours;
    for (const shapes::Mesh& part : separate(pieces[1].mesh)) {
        const auto box = shapes::bounds(part);
        CHECK(box->high_m.z < -9);
        CHECK(box->low_m.z > -9.31F);
        const float above_m = box->low_m.y - 0.09F;
        const float over_board_m = above_m - 0.335F * std::floor(above_m / 0.335F);
        REQUIRE(over_board_m > 0.024F - 2e-6F);
        REQUIRE(over_board_m + box->high_m.y - box->low_m.y < 0.335F + 2e-6F);
        const bool is_spine = part.vertices.size() == 4 && box->high_m.z == box->low_m.z &&
                              std::abs(part.vertices.front().normal.x) > 0.1F;
        if (!is_spine)
            continue;
        widths_mm.insert(static_cast<int>(std::lround(1000 * (box->high_m.x - box->low_m.x))));
        heights_mm.insert(static_cast<int>(std::lround(1000 * (box->high_m.y - box->low_m.y))));
        const glm::vec3& colour = part.vertices.front().colour;
        colours.insert({colour.r, colour.g, colour.b});
    }
    CHECK(widths_mm.size() > 20);
    CHECK(*widths_mm.begin() >= 12);
    CHECK(*widths_mm.rbegin() <= 65);
    CHECK(heights_mm.size() > 80);
    CHECK(*heights_mm.rbegin() < 311);
    CHECK(colours.size() > 500);
}

namespace {

/// How far behind its line the lamps of a backdrop at 9 m are, nearest first; each a closed convex
/// solid.
std::vector<double> lamps_behind_m(const std::vector<Piece>& pieces, float least_emission) {
    std::vector<double> found;
    for (const Piece& piece : pieces) {
        if (!piece.is_highlight)
            continue;
        CHECK(piece.material.emission.r >= least_emission);
        for (const shapes::Mesh& lamp : separate(piece.mesh)) {
            CHECK(is_convex_solid(lamp, 2e-5));
            const auto box = shapes::bounds(lamp);
            found.push_back(static_cast<double>(-(box->low_m.z + box->high_m.z) / 2 - 9));
        }
    }
    std::ranges::sort(found);
    return found;
}

}  // namespace

// Bays are 3.2 m long: a pair of lamps for each of the five columns on both sides.
TEST_CASE("a hall runs back for nineteen metres, with a pair of lamps every three",
          "[setting][property]") {
    const auto pieces = build_backdrop({BackdropKind::hall, 9}, usual);
    const auto lamps = lamps_behind_m(pieces, 20);
    REQUIRE(lamps.size() == 10);
    for (std::size_t i = 0; i < lamps.size(); ++i)
        CHECK(std::abs(lamps[i] - 3.2 * static_cast<double>(1 + i / 2)) < 0.2);
    CHECK(shapes::bounds(together(pieces))->low_m.z < -9 - 19);
    // Windows are brighter than what the room is exposed for, and too large to be highlights.
    const Piece& panes = pieces[2];
    CHECK_FALSE(panes.is_highlight);
    CHECK(panes.material.emission.g > 2);
    // Five bays a side and one more, and three at the end.
    CHECK(separate(panes.mesh).size() == 15);
}

TEST_CASE("a street has lamps at one to two, at ten and at a hundred metres",
          "[setting][property]") {
    const auto pieces = build_backdrop({BackdropKind::street, 9}, usual);
    const auto lamps = lamps_behind_m(pieces, 30);
    REQUIRE(lamps.size() >= 8);
    const auto some_between = [&](double from_m, double to_m) {
        return std::ranges::any_of(lamps, [&](double at) { return at >= from_m && at <= to_m; });
    };
    CHECK(some_between(1, 2));
    CHECK(some_between(8, 13));
    CHECK(some_between(90, 120));
    // Each gap is wider than the one before: they crowd towards the vanishing point.
    for (std::size_t i = 2; i < lamps.size(); ++i)
        CHECK(lamps[i] - lamps[i - 1] > lamps[i - 1] - lamps[i - 2]);
    // Lit rooms glow, but far less than a lamp.
    int lit = 0;
    for (const Piece& piece : pieces) {
        if (piece.is_highlight || piece.material.emission.r == 0)
            continue;
        ++lit;
        CHECK(piece.material.emission.r < 4);
        CHECK(separate(piece.mesh).size() > 20);
    }
    CHECK(lit == 3);
}

TEST_CASE("a beach goes from sand to a sea that ends at the horizon, with posts all the way out",
          "[setting][property]") {
    const auto pieces = build_backdrop({BackdropKind::beach, 9}, reaches[5]);
    const auto sand = shapes::bounds(pieces[0].mesh);
    const auto wet = shapes::bounds(pieces[1].mesh);
    const auto sea = shapes::bounds(pieces[2].mesh);
    CHECK(sand->high_m.z == -9);
    CHECK(wet->high_m.z == sand->low_m.z);
    CHECK(sea->high_m.z > wet->low_m.z);  // They overlap: no gap at the water's edge …
    CHECK(sea->low_m.y > wet->high_m.y);  // … and the water lies on top.
    CHECK(sea->low_m.z < -590);
    CHECK(covered_share(pieces[2].mesh, 1, {-100, -590}, {100, -16}, 200) == 1);
    // Posts are the tubes of the fourth piece: a metre high, from two metres to sixty behind.
    double nearest_m = 1000;
    double farthest_m = 0;
    int posts = 0;
    for (const shapes::Mesh& part : separate(pieces[3].mesh)) {
        const auto box = shapes::bounds(part);
        if (box->high_m.y - box->low_m.y < 0.7F || box->high_m.x - box->low_m.x > 0.6F)
            continue;
        ++posts;
        const auto behind_m = static_cast<double>(-box->high_m.z - 9);
        nearest_m = std::min(nearest_m, behind_m);
        farthest_m = std::max(farthest_m, behind_m);
    }
    CHECK(posts > 80);
    CHECK(nearest_m < 2);
    CHECK(farthest_m > 55);
    const auto glints = lamps_behind_m(pieces, 10);
    REQUIRE(glints.size() > 50);
    CHECK(glints.front() > 5);
}
