#include "plan/comparing/strip.h"

#include "plan/comparing/background.h"
#include "plan/comparing/carried_lens.h"
#include "plan/comparing/viewpoint.h"
#include "posed.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace backrow;
using namespace backrow::plan;
using Catch::Matchers::WithinRel;

namespace {

scene::Scene two_deep() {
    scene::Scene scene = level_scene({with_eye_at("Odile", 3.0), with_eye_at("Bram", 4.2, 0.3)});
    scene.camera.orientation = scene::Orientation::portrait;
    scene.setting.backdrops.push_back({.kind = setting::BackdropKind::hedge, .back_m = 9});
    return scene;
}

StripPlace now(const scene::Scene& scene) {
    return {.lens_to_mark_m = scene.camera.lens_to_mark_m,
            .focal_length_mm = scene.camera.focal_length_mm};
}

}  // namespace

TEST_CASE("a frame of a strip has in it what the same scene has alone", "[plan][property]") {
    scene::Scene scene = two_deep();
    const Strip frames = strip(scene, {now(scene)}, {1.2, 4});
    for (std::size_t i = 0; i < 2; ++i) {
        scene.camera.f_number = frames.f_numbers[i];
        const auto view = camera_view(scene);
        const StripFrame& frame = frames.frame(0, i);
        REQUIRE(frame.worst);
        CHECK(frame.worst->person == 1);
        CHECK(frame.worst->face.predicted_blur_um ==
              face_table(scene, view).faces[1].predicted_blur_um);
        CHECK(frame.background_percent == background(scene, view).percent_of_height);
        CHECK(frame.faces_in_frame == 2);
    }
    CHECK(frames.frame(0, 0).stops_lost == 0);
    // f/4 is 4 stops from f/1, and 1.2 stands for the mark half a stop above 1 (stops.h).
    CHECK_THAT(frames.frame(0, 1).stops_lost, WithinRel(3.5, 1e-12));
}

TEST_CASE("a focus given as a distance stays among the people from every place of a strip",
          "[plan][property]") {
    const scene::Scene scene = two_deep();
    const Strip frames = strip(scene, {{3, 50}, {5, 50}}, {1.2});
    CHECK_THAT(frames.frame(0, 0).view.lens.focus_m, WithinRel(3.0, 1e-12));
    CHECK_THAT(frames.frame(1, 0).view.lens.focus_m, WithinRel(5.0, 1e-12));
}

TEST_CASE("whoever is cut off by the frame is not its least sharp face", "[plan][property]") {
    scene::Scene scene = two_deep();
    scene.people.push_back(with_eye_at("Sefu", 8, 30));
    scene.people.back().place.across_m = 30;
    const StripFrame frame = strip(scene, {now(scene)}, {1.2}).frames[0];
    CHECK(frame.faces_in_frame == 2);
    REQUIRE(frame.worst);
    CHECK(frame.worst->face.name == "Bram");
    scene.camera.aim = scene::FromMark{-9, 1.6, 0};
    const StripFrame nobody = strip(scene, {now(scene)}, {1.2}).frames[0];
    CHECK(nobody.faces_in_frame == 0);
    CHECK_FALSE(nobody.worst);
}

TEST_CASE("a lens that keeps the framing shows the faces as large from its place",
          "[plan][property]") {
    const scene::Scene bound = bound_to_places(two_deep());
    const double scale = face_scale_mm_per_m(viewpoint_from(bound, 3));
    CHECK(framing_distance_m(bound, 50, scale) == 3);
    const auto distance_m = framing_distance_m(bound, 85, scale);
    REQUIRE(distance_m);
    CHECK_THAT(face_scale_mm_per_m(viewpoint_from(with_lens(bound, 85), *distance_m)),
               WithinRel(scale, 1e-4));
    // And back again: the lens for that place is the lens that the place was found for.
    CHECK_THAT(focal_length_for_scale_mm(viewpoint_from(bound, *distance_m), scale),
               WithinRel(85.0, 1e-4));
}

TEST_CASE("a strip from farther away has the photographer look behind, from nearer it has not",
          "[plan][property]") {
    const scene::Scene scene = two_deep();
    CHECK(strip(scene, {{3, 50}, {4, 50}, {5, 50}}, {1.2}).cautions ==
          std::vector{Caution::photographer_steps_back});
    CHECK(strip(scene, {{3, 50}, {2.5, 50}}, {1.2}).cautions.empty());
}

TEST_CASE("each place of a strip says what would bring in whom its frame cuts",
          "[plan][property]") {
    scene::Scene scene = level_scene(
        {somebody("Odile", {.across_m = -0.9}), somebody("Bram", {.across_m = 0.9}, 1.9)});
    scene.camera.level = false;
    scene.camera.aim = scene::AimAtGroup{};
    scene.focus = scene::FocusBalanced{};
    const Strip frames = strip(scene, {{2.5, 50}, {9, 50}}, {2, 4});
    REQUIRE(frames.whole_groups.size() == 2);
    CHECK_FALSE(frames.whole_groups[1]);
    REQUIRE(frames.whole_groups[0]);
    const auto from_m = frames.whole_groups[0]->lens_to_mark_m;
    REQUIRE(from_m);
    scene.camera.lens_to_mark_m = *from_m;
    CHECK(frame_cuts(scene).is_whole_group());
    scene.camera.lens_to_mark_m = *from_m - 0.02;
    CHECK_FALSE(frame_cuts(scene).is_whole_group());
    // Aimed anew from each place, as the table of faces would be.
    scene.camera.lens_to_mark_m = 2.5;
    CHECK(frames.frame(0, 1).view.look_at_m == camera_view(scene).look_at_m);
}

// f/2 and EV 12 want 1/1024 s at ISO 100, f/4 1/256, f/8 1/64.
TEST_CASE("every frame of a strip says what suits the light", "[plan][property]") {
    scene::Scene scene = two_deep();
    scene.camera.shutter_s = 1.0 / 60;
    scene.camera.iso = 100;
    scene.light.scene_ev100 = 12;
    const Strip frames = strip(scene, {{3, 50}}, {2, 4, 8});
    CHECK(frames.frame(0, 0).exposure.shutter_s == 1e-3);
    CHECK(frames.frame(0, 1).exposure.shutter_s == 1.0 / 250);
    CHECK(frames.frame(0, 2).exposure.shutter_s == 1.0 / 60);
}

// Whole stops are powers of √2 [ISO517], from memory: 1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22 as
// engraved.
TEST_CASE("without a list a strip stops down by whole stops from the scene's own aperture",
          "[plan][from-memory]") {
    const auto columns = [](double own, double opens_to = 0) {
        scene::Scene scene = two_deep();
        scene.camera.f_number = own;
        if (opens_to > 0)
            scene.lens.profile = optics::LensProfile{.widest_f_number = opens_to};
        return strip_f_numbers(scene);
    };
    using Columns = std::vector<double>;
    CHECK(columns(2) == Columns{2, 2.8, 4, 5.6});
    CHECK(columns(1.2) == Columns{1.2, 2, 2.8, 4});
    CHECK(columns(3.5) == Columns{3.5, 5.6, 8, 11});
    CHECK(columns(16) == Columns{8, 11, 16, 22});
    CHECK(columns(16, 9) == Columns{11, 16, 22});
    CHECK(columns(100) == Columns{11, 16, 22, 100});
}

TEST_CASE("the apertures to leaf through go from the widest that is known of the lens to the first "
          "at which everybody is fine",
          "[plan][property]") {
    const auto is_fine = [](scene::Scene scene, double f_number) {
        scene.camera.f_number = f_number;
        return std::ranges::all_of(
            face_table(scene, camera_view(scene)).faces,
            [](const Face& face) { return face.grade <= optics::Grade::fine; });
    };
    const scene::Scene scene =
        level_scene({with_eye_at("Odile", 3.0), with_eye_at("Bram", 5.0, 0.3)});
    REQUIRE_FALSE(is_fine(scene, scene.camera.f_number));
    const std::vector<double> f_numbers = f_numbers_until_fine(scene);
    CHECK(f_numbers.size() >= least_leaves);
    CHECK(f_numbers.size() <= most_leaves);
    CHECK(std::ranges::is_sorted(f_numbers));
    CHECK(f_numbers.front() == scene.camera.f_number);
    CHECK(is_fine(scene, f_numbers.back()));
    const double third_of_a_stop = std::exp2(1.0 / 6);
    CHECK_FALSE(is_fine(scene, f_numbers.back() / third_of_a_stop));

    scene::Scene of_a_profile = scene;
    of_a_profile.camera.f_number = 4;
    of_a_profile.lens.profile = optics::LensProfile{.widest_f_number = 1.4};
    CHECK(f_numbers_until_fine(of_a_profile).front() == 1.4);
    CHECK(std::ranges::count(f_numbers_until_fine(of_a_profile), 4) == 1);
}

TEST_CASE(
    "where everybody is fine as it is there are stops to leaf through all the same, and never "
    "too many",
    "[plan][property]") {
    scene::Scene scene = level_scene({with_eye_at("Odile", 4.0)});
    for (const double f_number : {1.0, 1.2, 2.0, 5.6, 16.0, 22.0}) {
        scene.camera.f_number = f_number;
        const std::vector<double> f_numbers = f_numbers_until_fine(scene);
        CAPTURE(f_number);
        CHECK(f_numbers.size() >= least_leaves);
        CHECK(std::ranges::count(f_numbers, f_number) == 1);
    }
    // Nothing makes somebody at arm's length and somebody far away fine.
    scene::Scene deep = level_scene({with_eye_at("Odile", 1.0), with_eye_at("Bram", 90.0)});
    deep.camera.f_number = 1.0;
    const std::vector<double> f_numbers = f_numbers_until_fine(deep);
    CHECK(f_numbers.size() == most_leaves);
    CHECK(f_numbers.front() == 1.0);
    CHECK(f_numbers.back() == 22.0);
}
