#include "plan/faces/margin.h"

#include "posed.h"

#include "optics/blur/blur_circle.h"
#include "optics/lens/lens_profile.h"

#include "base/units.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

using namespace backrow;
using namespace backrow::plan;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

std::vector<Margin> fine_margins(const scene::Scene& scene) {
    return margins(scene, scene::camera_view(scene), optics::Grade::fine);
}

Margin only_margin(const scene::Scene& scene) {
    const auto all = fine_margins(scene);
    REQUIRE(all.size() == 1);
    return all.front();
}

}  // namespace

// Worked out apart by near = s f²/(f² + N c (s − f)), far likewise with −, the forms of
// [RAY2002], from memory: 50 mm f/2 at 10 ft with 0.030 mm is sharp 204.6 mm before and 236.3 mm
// behind the focus. Tolerance: half of the last printed digit, rounded twice.
TEST_CASE("somebody in the plane of focus may drift through the whole zone",
          "[plan][from-memory]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.048)});
    scene.camera.f_number = 2;
    scene.focus = scene::FocusAtDistance{3.048};
    const Margin margin = only_margin(scene);
    CHECK_THAT(mm_from_m(margin.front_m), WithinAbs(204.6, 0.055));
    CHECK_THAT(mm_from_m(margin.back_m), WithinAbs(236.3, 0.055));

    // 10 cm further back: so much more in front, so much less behind.
    scene.people = {with_eye_at("Odile", 3.148)};
    const Margin further = only_margin(scene);
    CHECK_THAT(further.front_m - margin.front_m, WithinAbs(0.1, 1e-12));
    CHECK_THAT(margin.back_m - further.back_m, WithinAbs(0.1, 1e-12));
}

TEST_CASE("whoever is outside the grade has no margin, nor who is behind the lens",
          "[plan][property]") {
    const auto all =
        fine_margins(scene_of_pixels({with_eye_at("Near", 2.5), with_eye_at("In", 3.0),
                                      with_eye_at("Far", 3.6), with_eye_at("Behind", -0.5)}));
    REQUIRE(all.size() == 4);
    for (const std::size_t who : {0u, 2u, 3u}) {
        CHECK(all[who].front_m == 0);
        CHECK(all[who].back_m == 0);
    }
    CHECK(all[1].front_m > 0);
    CHECK(all[1].back_m > 0);
}

// H = 50²/(8·0.03) + 50 mm = 10.47 m.
TEST_CASE("focused beyond the hyperfocal distance nobody can go too far back", "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 8)});
    scene.camera.f_number = 8;
    scene.focus = scene::FocusAtDistance{11};
    CHECK(std::isinf(only_margin(scene).back_m));
    scene.focus = scene::FocusAtDistance{10};
    CHECK(std::isfinite(only_margin(scene).back_m));
}

TEST_CASE("the stricter the grade, the less margin", "[plan][property]") {
    const auto scene = scene_of_pixels({with_eye_at("Odile", 3.0)});
    const auto view = scene::camera_view(scene);
    const auto margin = [&](optics::Grade grade) { return margins(scene, view, grade).front(); };
    const Margin crisp = margin(optics::Grade::crisp), fine = margin(optics::Grade::fine),
                 soft = margin(optics::Grade::soft);
    CHECK(crisp.front_m < fine.front_m);
    CHECK(crisp.back_m < fine.back_m);
    CHECK(fine.front_m < soft.front_m);
    CHECK(fine.back_m < soft.back_m);
}

// The spot is worked out in one layer, the zone in another: at both ends of the margin the spot
// through this lens at this place in the picture is the limit. Tolerance: the smallest difference
// of reciprocals here, 0.005 dpt of 0.33, keeps 2⁻⁵²·70 of its digits.
TEST_CASE("with a lens profile the margin ends where the lens's own spot does",
          "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Middle", 3.0), with_eye_at("Side", 3.0, 0.9)});
    scene.lens.profile = optics::LensProfile{
        .widest_f_number = 1.2, .spherical_dpt = 0.006, .field_curvature_dpt = -0.012};
    const auto view = scene::camera_view(scene);
    const auto all = fine_margins(scene);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto eye = project(view, nearer_eye_m(view, scene.people[i]));
        for (const double end_m : {eye.axial_m - all[i].front_m, eye.axial_m + all[i].back_m})
            CHECK_THAT(optics::blur_diameter_mm(view.focused(), end_m, eye.image_height),
                       WithinRel(0.030, 1e-12));
    }
    CHECK(all[0].front_m != all[1].front_m);
}

TEST_CASE("a place in the picture holds as the face does that is there", "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Middle", 3.0), with_eye_at("Side", 3.0, 0.9)});
    scene.lens.profile = optics::LensProfile{
        .widest_f_number = 1.2, .spherical_dpt = 0.006, .field_curvature_dpt = -0.012};
    scene.odds.recompose_deg = 10;
    const auto view = scene::camera_view(scene);
    std::vector<double> heights;
    for (const scene::Person& person : scene.people)
        heights.push_back(project(view, nearer_eye_m(view, person)).image_height);
    const auto of_faces = zones(scene, view, optics::Grade::fine);
    const auto of_places = zones_at(scene, view, optics::Grade::fine, heights);
    REQUIRE(of_places.size() == 2);
    for (std::size_t i = 0; i < of_places.size(); ++i) {
        REQUIRE(of_places[i]);
        CHECK(of_places[i]->near_m == of_faces[i]->near_m);
        CHECK(of_places[i]->far_m == of_faces[i]->far_m);
    }
    // So much spherical aberration that nothing is fine anywhere.
    scene.lens.profile->spherical_dpt = 2;
    CHECK_FALSE(zones_at(scene, camera_view(scene), optics::Grade::fine, heights)[0]);
}

TEST_CASE("what goes wrong in a frame is left to the odds", "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.02)});
    const Margin calm = only_margin(scene);
    scene.odds.recompose_deg = 10;
    scene.odds.delay_s = 0.3;
    scene.people[0].speed_mps = 1.4;
    const Margin walking = only_margin(scene);
    CHECK(walking.front_m == calm.front_m);
    CHECK(walking.back_m == calm.back_m);
}
