#include "test_stage.h"

#include "render/lighting.h"

#include "base/colour.h"

using namespace backrow;
using namespace backrow::render;

namespace {

// A floor, and a person-sized board above it that can throw a shadow; the camera looks at the floor
// from above and in front. Rows of the picture run from far to near.
struct Yard {
    scene::Stage stage;
    scene::CameraView view = straight_camera(8.0, 5.0);
};

Yard yard(bool with_board) {
    Yard made;
    made.view.position_m = {0, 4, 4};
    made.view.forward = glm::normalize(glm::dvec3{0, -1, -1});
    made.view.up = glm::normalize(glm::dvec3{0, 1, -1});
    scene::Part floor;
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
    person.role = scene::Role::body;
    made.stage.parts.push_back(person);
    if (with_board) {
        // Flat over the floor, 0.4 m wide, a metre up: its shadow falls in front of the mark.
        scene::Part lid = floor;
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
    const StageOnGpu on_gpu{gl, made.stage};
    const Lighting lighting = light_of(gl, on_gpu, Look::lit, made.view);
    const auto picture =
        make_picture({gl, *programs, on_gpu, lighting}, made.view, whole_frame(made.view, 150, 100),
                     make_lens_samples(96, 0, 0), KeepLinear::yes, carry_on);
    REQUIRE(picture);
    CHECK(gl_errors() == 0);
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
    const float expected = 0.3f * (light.sky.g + light.sun.g * cosine);
    CHECK(at(picture, open.view, {1.2, 0.0, 1.2}) == Approx(expected).epsilon(0.05));
}

TEST_CASE("after sunset only the sky is left", "[render][property]") {
    const auto day = metered_daylight({0, 1, 0}, true, {0, 0, 1});
    const auto night = metered_daylight({0, -0.1, 1}, false, {0, 0, 1});
    CHECK(day.sun.g > 0.0f);
    CHECK(night.sun.g == 0.0f);
    // Metered alike: a white surface that faces the lens is 1.05 either way.
    for (const Daylight& light : {day, night})
        CHECK(0.5f * light.sky.g + 0.5f * light.ground.g == Approx(1.05f).epsilon(1e-4));
}

// Maps of the light come first, then the vertices: stopped in either, nothing comes back.
TEST_CASE("lighting stops where it is told to", "[render][property]") {
    const auto context = HeadlessContext::make();
    REQUIRE(context);
    const Yard made = yard(true);
    const StageOnGpu on_gpu{context->gl(), made.stage};
    double reached = 0;
    const auto until = [&](double share) {
        reached = 0;
        const auto lighting = Lighting::make(context->gl(), on_gpu, Look::lit, made.view.position_m,
                                             [&](double done) {
                                                 CHECK(done >= reached);
                                                 reached = done;
                                                 return done < share;
                                             });
        REQUIRE(lighting);
        return lighting->has_value();
    };
    CHECK_FALSE(until(0.1));
    CHECK(reached < 0.2);
    CHECK_FALSE(until(0.75));
    CHECK(until(1.5));
    CHECK(reached == Approx(1.0));
}
