#include "papers/lesson/lesson_facts.h"

#include "groups.h"

#include "plan/faces/metering.h"
#include "plan/faces/verdict.h"
#include "scene/limits.h"

#include "optics/exposure/stops.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace backrow;
using namespace backrow::papers;

namespace {

LessonFacts facts_of(const std::string& demo, const std::vector<std::string>& overrides = {}) {
    return lesson_facts(rehearsal::demo_scene(demo, overrides));
}

plan::FaceTable table_of(const scene::Scene& scene) {
    return plan::face_table(scene, camera_view(scene));
}

}  // namespace

TEST_CASE("every demo scene's lesson has three distances and three apertures, its own among them",
          "[papers][property]") {
    for (const std::string& file : rehearsal::demo_scene_files()) {
        CAPTURE(file);
        const LessonFacts facts = lesson_facts(*scene_file::read_scene(file));
        REQUIRE(facts.strip.places.size() == 3);
        REQUIRE(facts.strip.f_numbers.size() == 3);
        const scene::Camera& camera = facts.scene.camera;
        CHECK(facts.strip.places[facts.own_place].lens_to_mark_m == camera.lens_to_mark_m);
        CHECK(facts.strip.f_numbers[facts.own_aperture] == camera.f_number);
        for (std::size_t i = 1; i < 3; ++i) {
            // To the centimetre; apertures are marks, the next of which is a sixth of a stop off.
            CHECK(std::abs(facts.strip.places[i].lens_to_mark_m /
                               facts.strip.places[i - 1].lens_to_mark_m -
                           std::sqrt(2.0)) < 0.01);
            CHECK(std::abs(optics::stops_between(facts.strip.f_numbers[i - 1],
                                                 facts.strip.f_numbers[i]) -
                           2) < 1.0 / 6 + 1e-6);
        }
    }
}

// The eye's blur without diffraction is in proportion to the opening; marks of f-numbers stand for
// powers of the root of two and are taken as typed, so 4 to 8 is exact.
TEST_CASE("along a row blur halves", "[papers][property]") {
    const LessonFacts facts = facts_of("choir");
    for (std::size_t place = 0; place < 3; ++place)
        for (std::size_t who = 0; who < facts.scene.people.size(); ++who)
            for (std::size_t i = 1; i < 3; ++i)
                CHECK(facts.strip.frame(place, i).faces[who].predicted_blur_px ==
                      Approx(facts.strip.frame(place, i - 1).faces[who].predicted_blur_px / 2)
                          .margin(1e-9));
}

TEST_CASE("nobody is cut from nearer: then both other distances are farther",
          "[papers][property]") {
    const LessonFacts tight = facts_of("choir");
    CHECK(tight.own_place == 0);
    const LessonFacts loose = facts_of("choir", {"camera.distance_m=14"});
    CHECK(loose.own_place == 1);
    CHECK(std::ranges::all_of(loose.strip.frame(0, 0).faces,
                              [](const plan::Face& face) { return face.cropping.has_whole_head; }));
}

TEST_CASE("no aperture is narrower than f/16, and none wider than a profile opens",
          "[papers][property]") {
    CHECK(facts_of("choir", {"camera.f_number=5.6"}).strip.f_numbers ==
          std::vector{2.8, 5.6, 11.0});
    CHECK(facts_of("choir", {"camera.f_number=8"}).strip.f_numbers == std::vector{4.0, 8.0, 16.0});
    CHECK(facts_of("choir", {"camera.f_number=11"}).strip.f_numbers == std::vector{2.8, 5.6, 11.0});
}

TEST_CASE("no place is farther than a scene may have it", "[papers][property]") {
    const LessonFacts facts = facts_of(
        "choir", {"camera.distance_m=280", "camera.focal_length_mm=1200", "camera.height_m=1.6"});
    for (const plan::StripPlace& place : facts.strip.places)
        CHECK(place.lens_to_mark_m <= scene::limits::lens_to_mark_m.greatest);
    CHECK(facts.strip.places.size() > 1);
}

TEST_CASE("at the aperture that answers everybody is as sharp as asked, a third of a stop wider "
          "somebody is not",
          "[papers][property]") {
    for (const char* demo : {"choir", "steps", "theatre"}) {
        CAPTURE(demo);
        const LessonFacts facts = facts_of(demo);
        REQUIRE(facts.aperture.f_number);
        const auto all_hold = [&](double f_number) {
            scene::Scene scene = facts.scene;
            scene.camera.f_number = f_number;
            return std::ranges::all_of(table_of(scene).faces, [&](const plan::Face& face) {
                return face.grade <= facts.aperture.grade;
            });
        };
        CHECK(all_hold(*facts.aperture.f_number));
        if (*facts.aperture.f_number > facts.scene.camera.f_number)
            CHECK_FALSE(all_hold(*facts.aperture.f_number / std::exp2(1.0 / 6) - 0.05));
        CHECK((facts.aperture.times_limit > 1) ==
              (*facts.aperture.f_number > facts.scene.camera.f_number));
        scene::Scene there = facts.scene;
        there.camera.f_number = *facts.aperture.f_number;
        there.camera.shutter_s = facts.aperture.exposure.shutter_s;
        there.camera.iso = facts.aperture.exposure.iso;
        there.camera.filter_stops = facts.aperture.exposure.filter_stops;
        // As near as optics/exposure/right_exposure.h comes.
        CHECK(std::abs(table_of(there).metering.stops_over) <= 0.2);
    }
}

TEST_CASE("focused as the second exercise answers, nearest and farthest eye are equally sharp",
          "[papers][property]") {
    const LessonFacts facts = facts_of("choir");
    scene::Scene scene = facts.scene;
    scene.focus = scene::FocusAtDistance{.axial_m = facts.focus.focus_m};
    const plan::FaceTable table = table_of(scene);
    const auto [nearest, farthest] = std::ranges::minmax(table.faces, {}, &plan::Face::axial_m);
    CHECK(nearest.predicted_blur_px == Approx(farthest.predicted_blur_px).epsilon(1e-6));
    CHECK(nearest.axial_m == Approx(facts.focus.nearest_m));
    CHECK(farthest.axial_m == Approx(facts.focus.farthest_m));
}
