#include "test_stage.h"

#include "render/light/daylight.h"
#include "render/light/lighting.h"

#include "base/colour.h"

#include <cmath>

using namespace backrow;
using namespace backrow::render;

namespace {

// A floor, and a person-sized board above it that can throw a shadow; the camera looks at the floor
// from above and in front. Rows of the picture run from far to near.
struct Yard {
    stage::Stage stage;
    scene::CameraView view = straight_camera(8.0, 5.0);
};

Yard yard(bool with_board) {
    Yard made;
    made.view.position_m = {0, 4, 4};
    made.view.forward = glm::normalize(glm::dvec3{0, -1, -1});
    made.view.up = glm::normalize(glm::dvec3{0, 1, -1});
    stage::Part floor;
    for (const auto& [x, z] :
         {std::pair{-8.f, 8.f}, std::pair{8.f, 8.f}, std::pair{8.f, -8.f}, std::pair{-8.f, -8.f}}) {
        shapes::Vertex vertex;
        vertex.position_m = {x, 0, z};
        vertex.normal = {0, 1, 0};
        vertex.colour = glm::vec3{0.3f};
        floor.mesh.vertices.push_back(vertex);
    }
    floor.mesh.indices = {0, 1, 2, 0, 2, 3};
    made.stage.parts.push_back(floor);
    made.stage.towards_sun = glm::normalize(glm::dvec3{0, 1, -0.2});
    // Somebody must stand there for shadows to be drawn round: a small block marks the place.
    auto person = board(-0.05, 0.0, 0.05, 1.8, 0.0, glm::vec3{0.3f});
    person.person = 0;
    person.role = stage::Role::body;
    made.stage.parts.push_back(person);
    if (with_board) {
        // Flat over the floor, 0.4 m wide, a metre up: its shadow falls in front of the mark.
        stage::Part lid = floor;
        for (auto& vertex : lid.mesh.vertices)
            vertex.position_m = {vertex.position_m.x / 40.0f + 0.7f, 1.0f,
                                 vertex.position_m.z / 40.0f};
        made.stage.parts.push_back(lid);
    }
    return made;
}

Image<Rgb> lit(const Yard& made) {
    auto context = HeadlessContext::make();
    REQUIRE(context);
    const Gl& gl = context->gl();
    const auto programs = PicturePrograms::make(gl, Look::lit);
    REQUIRE(programs);
    StageOnGpu on_gpu{gl, made.stage};
    const Lighting lighting = light_of(gl, on_gpu, Look::lit, made.view);
    const auto picture =
        make_picture({gl, *programs, on_gpu, lighting}, made.view, whole_frame(made.view, 150, 100),
                     make_lens_samples(96, 0, {}), KeepLinear::yes, carry_on);
    REQUIRE(picture);
    CHECK_NOTHROW(require_no_gl_error());
    return picture->linear;
}

float at(const Image<Rgb>& picture, const scene::CameraView& view, const glm::dvec3& point_m) {
    const auto seen = project(view, point_m);
    return picture
        .at(static_cast<int>(seen.at_px.x / view.width_px * 150),
            static_cast<int>(seen.at_px.y / view.height_px * 100))
        .g;
}

}  // namespace

// The sun stands 11.3° from overhead, behind: the board's shadow falls 0.2 m nearer to the camera.
// The shadow is dark, but not black: the sky still reaches it.
TEST_CASE("the sun throws shadows away from itself, and the sky fills them", "[render][property]") {
    const Yard open = yard(false);
    const Yard shaded = yard(true);
    const auto without = lit(open);
    const auto with = lit(shaded);
    const glm::dvec3 in_shadow{0.7, 0.0, 0.35};
    const glm::dvec3 beside{-0.7, 0.0, 0.35};
    CHECK(at(with, shaded.view, in_shadow) < 0.6f * at(without, open.view, in_shadow));
    CHECK(at(with, shaded.view, in_shadow) > 0.05f * at(without, open.view, in_shadow));
    CHECK(at(with, shaded.view, beside) == Approx(at(without, open.view, beside)).epsilon(0.05));
}

// Far from everything that could shade it a floor gets sky + sun·cos; the metering makes an upright
// white surface facing the lens 1.05. Both come from metered_daylight(); the renderer must add them
// up. Tolerance: 48 directions of the sky stand for the dome, good to a few hundredths.
TEST_CASE("an open floor gets the whole sky and the sun by its cosine", "[render][property]") {
    const Yard open = yard(false);
    const auto picture = lit(open);
    const auto light = metered_daylight(
        open.stage.towards_sun, true, glm::normalize(open.view.position_m - glm::dvec3{0, 0.9, 0}));
    const float cosine = static_cast<float>(open.stage.towards_sun.y);
    const float expected = 0.3f * (light.sky.g + light.main.g * cosine);
    CHECK(at(picture, open.view, {1.2, 0.0, 1.2}) == Approx(expected).epsilon(0.05));
}

TEST_CASE("after sunset only the sky is left", "[render][property]") {
    const auto day = metered_daylight({0, 1, 0}, true, {0, 0, 1});
    const auto night = metered_daylight({0, -0.1, 1}, false, {0, 0, 1});
    CHECK(day.main.g > 0.0f);
    CHECK(night.main.g == 0.0f);
    // Metered alike: a white surface that faces the lens is 1.05 either way.
    for (const Daylight& light : {day, night})
        CHECK(0.5f * light.sky.g + 0.5f * light.ground.g == Approx(1.05f).epsilon(1e-4));
}

namespace {

// A pale floor in a room whose window stands 3 m to the left and reaches down to it.
Yard room(bool with_board) {
    Yard made = yard(with_board);
    made.stage.window = stage::window_light(
        {.azimuth_deg = 270, .distance_m = 3, .width_m = 0.2, .height_m = 0.2, .sill_m = 1.4});
    return made;
}

}  // namespace

// A small window 1.5 m up, 3 m left of the mark; the floor a metres to its right and 1.5 m aside
// gets light by cos at the floor (1.5/d) times cos at the pane (a/d) over d² = a² + 1.5² + 1.5².
// Room light is the same everywhere and drops out of the differences between three places.
// Tolerance: a pane of 20 cm is no point, which is worth (0.1/d)², below 1 %, in each; the one
// person in the room hides up to a hundredth of the room's light, itself as strong as the window's:
// 6 % of the ratio.
TEST_CASE("a window's light falls off with distance and slant", "[render][property]") {
    const Yard made = room(false);
    const auto picture = lit(made);
    const auto expected = [](double a_m) {
        const double square = a_m * a_m + 1.5 * 1.5 + 1.5 * 1.5;
        return 1.5 * a_m / (square * square);
    };
    const auto seen = [&](double a_m) {
        return static_cast<double>(at(picture, made.view, {a_m - 3, 0, 1.5}));
    };
    CHECK(seen(3.0) > seen(4.4));
    CHECK((seen(1.9) - seen(4.4)) / (seen(3.0) - seen(4.4)) ==
          Approx((expected(1.9) - expected(4.4)) / (expected(3.0) - expected(4.4))).epsilon(0.06));
}

// The pane stands 1.5 m up and 3 m left; a board 1.2 m high and 40 cm wide across its light throws
// a shadow away from it that reaches far behind, and none towards it.
TEST_CASE("a window throws shadows away from itself, and the room fills them",
          "[render][property]") {
    Yard shaded = room(true);
    shaded.stage.parts.back() = board(-0.2, 0.0, 0.2, 1.2, 0.0, glm::vec3{0.3f});
    for (auto& vertex : shaded.stage.parts.back().mesh.vertices)
        vertex.position_m = {0.7f, vertex.position_m.y, 0.6f + vertex.position_m.x};
    const Yard open = room(false);
    const auto without = lit(open);
    const auto with = lit(shaded);
    const glm::dvec3 behind{1.4, 0.0, 0.6};
    const glm::dvec3 before{0.1, 0.0, 0.6};
    CHECK(at(with, shaded.view, behind) < 0.7f * at(without, open.view, behind));
    CHECK(at(with, shaded.view, behind) > 0.1f * at(without, open.view, behind));
    CHECK(at(with, shaded.view, before) > 0.9f * at(without, open.view, before));
}

// In front of the pane, metered on a white surface: facing the camera it gets the window by its
// cosine, facing the window all of it, both the room's light; weighed two to one that is 1.05.
TEST_CASE("by a window the light side is not lost", "[render][property]") {
    const auto window = stage::window_light({.azimuth_deg = 300, .distance_m = 2.5});
    const glm::dvec3 group{0, window.middle_m.y, 0};
    const auto light = metered_window_light(window, group, {0, 0, 1});
    const float at_group = 1.0f / (2.5f * 2.5f);
    const float fill = 0.5f * light.sky.g + 0.5f * light.ground.g;
    const float camera_side = light.main.g * at_group * 0.5f + fill;  // 60° off
    const float window_side = light.main.g * at_group + fill;
    CHECK((2 * camera_side + window_side) / 3 == Approx(1.05f).epsilon(1e-4));
    CHECK(window_side < 2);
    // Nearer, the window itself counts for less: the same exposure results.
    const auto nearer =
        metered_window_light(window, group + 0.5 * (window.middle_m - group), {0, 0, 1});
    CHECK(nearer.main.g == Approx(light.main.g / 4).epsilon(1e-4));
    CHECK(nearer.sky.g == Approx(light.sky.g).epsilon(1e-4));
}

// Maps of the light come first, then the vertices: stopped in either, nothing comes back.
TEST_CASE("lighting stops where it is told to", "[render][property]") {
    const auto context = HeadlessContext::make();
    REQUIRE(context);
    const Yard made = yard(true);
    StageOnGpu on_gpu{context->gl(), made.stage};
    double reached = 0;
    const auto until = [&](double share) {
        reached = 0;
        const auto lighting = Lighting::make(context->gl(), on_gpu, Look::lit, made.view.position_m,
                                             [&](double done) {
                                                 CHECK(done >= reached);
                                                 reached = done;
                                                 return done < share;
                                             });
        return lighting.has_value();
    };
    CHECK_FALSE(until(0.1));
    CHECK(reached < 0.2);
    CHECK_FALSE(until(0.75));
    CHECK(until(1.5));
    CHECK(reached == Approx(1.0));
}
