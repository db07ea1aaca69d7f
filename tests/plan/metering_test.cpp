#include "plan/faces/metering.h"

#include "posed.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <utility>

using namespace backrow;
using namespace backrow::plan;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Metering metering_of(const scene::Scene& scene) {
    return metering(scene, scene::camera_view(scene));
}

}  // namespace

// By hand: f/1.2 stands for 2^¼, half a stop; log₂ 250 = 7.9658. 50 mm focused at 3 m: m = 50/2950,
// 1.2·(1 + m) = 1.220339. Tolerance: half of the last digits.
TEST_CASE("the scene's setting is held against its light", "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.0)});
    scene.light.scene_ev100 = 12;
    const Metering day = metering_of(scene);
    CHECK_THAT(day.ev100, WithinAbs(8.4658, 0.00005));
    CHECK(day.scene_ev100 == 12);
    CHECK_THAT(day.stops_over, WithinAbs(3.5342, 0.00005));
    CHECK_THAT(day.effective_f_number, WithinAbs(1.220339, 0.0000005));
    CHECK(day.handheld_limit_s == 1.0 / 50);

    scene.camera.iso = 800;
    scene.camera.f_number = 4;
    const Metering faster = metering_of(scene);
    // Three stops of ISO gained, three and a half of opening lost.
    CHECK_THAT(faster.stops_over, WithinAbs(day.stops_over - 0.5, 1e-12));
}

TEST_CASE("held upright a camera shakes as much", "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.0)});
    scene.camera.sensor_mm = {23.6, 15.7};
    const double across = metering_of(scene).handheld_limit_s;
    CHECK(across < 1.0 / 50);
    scene.camera.orientation = scene::Orientation::portrait;
    CHECK_THAT(metering_of(scene).handheld_limit_s, WithinRel(across, 1e-12));
}

// m v t with m = f/(s − f) [JACOBSON], worked out apart: at 50 mm and 3 m 1.4 m/s across draw 189.8
// µm in 1/125 s, so 30 µm take 1/790.8 s. An eye within 5 cm of the axis moves with its image to 1
// in 10 000; half a digit of 189.8 is 3 in 10 000.
TEST_CASE("who walks across the picture asks for a fast shutter", "[plan][published]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.0), with_eye_at("Bram", 3.2, 0.6)});
    scene.people[0].speed_mps = 1.4;
    scene.people[0].heading_deg = 90;
    CHECK_THAT(metering_of(scene).motion_limit_s, WithinRel(30 / 189.8 / 125, 4e-4));
}

// Whoever stands still is as slow for the shutter as the estimate says, 0.015 m/s, wherever the
// picture shows them: 0.03 mm·d/(v·15 mm/s) at the nearest face, v = 50·3000/2950 mm.
TEST_CASE("even people who stand still limit the shutter, the nearest most", "[plan][property]") {
    auto scene = scene_of_pixels(
        {with_eye_at("Odile", 3.0), with_eye_at("Bram", 2.8, 0.6), with_eye_at("Sefu", 3.5, -0.6)});
    const double v_mm = 50.0 * 3000 / 2950;
    CHECK_THAT(metering_of(scene).motion_limit_s, WithinRel(0.03 * 2800 / (v_mm * 15), 1e-9));
    scene.viewing = optics::phone_viewing;
    CHECK(metering_of(scene).motion_limit_s > 0.1);
}

// Straight towards the lens the image of an eye on the axis stays where it is, and that of somebody
// half a metre aside runs outwards by v·X·d'/d².
TEST_CASE("who walks towards the lens moves in the picture by how far aside they are",
          "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.0, 0.6)});
    scene.people[0].speed_mps = 1.4;
    const auto view = scene::camera_view(scene);
    const auto eye_m = nearer_eye_m(view, scene.people[0]);
    const double aside_m = std::hypot(eye_m.x, eye_m.y - 1.6);
    const double v_mm = 50.0 * 3000 / 2950;
    const double streak_in_a_second_mm = v_mm * aside_m * 1.4 / (3.0 * 3.0);
    CHECK_THAT(metering_of(scene).motion_limit_s, WithinRel(0.03 / streak_in_a_second_mm, 1e-9));
}

TEST_CASE("nobody before the lens limits nothing", "[plan][property]") {
    CHECK(std::isinf(metering_of(scene_of_pixels({with_eye_at("Odile", -1.0)})).motion_limit_s));
}

TEST_CASE("only a scene shown as set is brighter or darker than metered", "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.0)});
    scene.light.scene_ev100 = 10;
    const Metering metering = metering_of(scene);
    REQUIRE(metering.stops_over > 1);
    CHECK(stops_shown(scene.camera, metering) == 0);
    scene.camera.exposure = scene::ShownExposure::as_set;
    CHECK(stops_shown(scene.camera, metering) == metering.stops_over);
}

// By hand: f/2 and EV 12 want 1/1024 s at ISO 100; f/2 and EV 7 want 1/32 s, and as 50 mm are held
// to 1/50, ISO 100·50/32 = 156.
TEST_CASE("a setting that suits the light keeps to what hands and people hold",
          "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.0)});
    scene.camera.f_number = 2;
    const auto right = [&] {
        const scene::CameraView view = scene::camera_view(scene);
        return right_exposure(scene, view, metering(scene, view));
    };
    scene.light.scene_ev100 = 12;
    CHECK(right() == optics::ExposureSetting{.shutter_s = 1e-3, .iso = 100});
    scene.light.scene_ev100 = 7;
    CHECK(right() == optics::ExposureSetting{.shutter_s = 1.0 / 50, .iso = 160});
    // Within the limit of 50 mm, not within that of 135.
    scene.camera.shutter_s = 1.0 / 60;
    scene::Scene longer = scene;
    longer.camera.focal_length_mm = 135;
    const scene::CameraView view = scene::camera_view(longer);
    CHECK(right_exposure(scene, view, metering(longer, view)).shutter_s <= 1.0 / 135);
    // On a tripod, somebody walking: the shutter that was long already is too long for her.
    scene.camera.shutter_s = 1.0 / 32;
    CHECK(right().shutter_s == 1.0 / 32);
    scene.people[0].speed_mps = 1.4;
    scene.people[0].heading_deg = 90;
    CHECK(right().shutter_s <= metering_of(scene).motion_limit_s);
}

TEST_CASE("a grey filter takes its stops from the exposure", "[plan][property]") {
    auto scene = scene_of_pixels({with_eye_at("Odile", 3.0)});
    const double over = metering_of(scene).stops_over;
    scene.camera.filter_stops = 3;
    CHECK_THAT(metering_of(scene).stops_over, WithinAbs(over - 3, 1e-12));
    CHECK_THAT(metering_of(scene).scene_ev100 - metering_of(scene).ev100,
               WithinAbs(over - 3, 1e-12));
}
