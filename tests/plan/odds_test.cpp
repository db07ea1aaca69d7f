#include "plan/odds/odds.h"

#include "plan/faces/face_table.h"
#include "plan/odds/odds_by_integration.h"
#include "posed.h"

#include "base/units.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

using namespace backrow;
using namespace backrow::plan;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// Looked at pixel by pixel, so that some 85 mm to either side of the focus are fine. Nothing goes
/// wrong but what a test adds.
scene::Scene scene_of(std::vector<scene::Person> people) {
    scene::Scene scene = level_scene(std::move(people));
    scene.camera.shutter_s = 0.00001;
    scene.viewing = scene::PixelViewing{};
    scene.odds = {.sway_mm = 0,
                  .sideways_sway_mm = 0,
                  .camera_sway_mm = 0,
                  .autofocus_mm = 0,
                  .blinks_per_min = 0,
                  .blink_s = 0};
    return scene;
}

FrameModel model_of(const scene::Scene& scene, optics::Grade grade = optics::Grade::fine) {
    return frame_model(scene, scene::camera_view(scene), grade);
}

Odds odds_of(const scene::Scene& scene, std::int64_t trials = 200'000) {
    return odds_by_trials(model_of(scene), {.trials = trials, .seed = 1, .threads = 2});
}

double within(double mean, double spread, double least, double most) {
    const auto below = [&](double x) {
        return std::erfc(-(x - mean) / (spread * std::numbers::sqrt2)) / 2;
    };
    return below(most) - below(least);
}

/// Three rows, several errors at once.
scene::Scene everything() {
    auto scene = scene_of({with_eye_at("Odile", 2.98, -0.5), with_eye_at("Bram", 3.0, 0.4),
                           with_eye_at("Sefu", 3.07, -0.2), with_eye_at("Yuki", 3.1, 0.3)});
    scene.odds = {.sway_mm = 20,
                  .sideways_sway_mm = 6,
                  .camera_sway_mm = 25,
                  .autofocus_mm = 30,
                  .recompose_deg = 4,
                  .line_up_mm = 15,
                  .delay_s = 0.05};
    scene.people[1].pose.turn_deg = 40;
    scene.people[2].pose.posture = figures::Posture::seated;
    scene.people[2].place = with_eye_at("Sefu", 3.07, -0.2).place;
    scene.people[3].speed_mps = 0.4;
    scene.people[3].heading_deg = 30;
    return scene;
}

}  // namespace

// [SVENSON2006]: 10 blinks a minute of 250 ms, shutter 8 ms, P(good) = (1 − xt)^n with xt = 0.0430:
// five people .80271 and 3 shots for 99 %, twelve .59012 and 6, twenty .41518 and 9; 1/P = 1.6946
// for twelve. Four shots of twelve are good with .97178. Tolerance: half a printed digit.
TEST_CASE("photographs without a blink come out as published", "[plan][published]") {
    const auto group = [](int people) {
        auto scene = scene_of({});
        for (int i = 0; i < people; ++i)
            scene.people.push_back(with_eye_at(std::string(1, static_cast<char>('A' + i)), 3.0));
        scene.camera.shutter_s = 0.008;
        scene.odds.blinks_per_min = 10;
        scene.odds.blink_s = 0.25;
        return odds_of(scene, 100);
    };
    const Odds five = group(5), twelve = group(12), twenty = group(20);
    CHECK_THAT(five.eyes_open, WithinAbs(0.80271, 5e-6));
    CHECK_THAT(twelve.eyes_open, WithinAbs(0.59012, 5e-6));
    CHECK_THAT(twenty.eyes_open, WithinAbs(0.41518, 5e-6));
    CHECK_THAT(1 / twelve.eyes_open, WithinAbs(1.6946, 5e-5));
    CHECK_THAT(1 - std::pow(1 - twelve.eyes_open, 4), WithinAbs(0.97178, 5e-6));
    CHECK(twelve.sharp.value == 1);
    CHECK(five.frames.p99 == 3);
    CHECK(twelve.frames.p99 == 6);
    CHECK(twenty.frames.p99 == 9);
    // Its rule: a third of the people as shots is "better than 95 %" (for six it is 94.6 %).
    for (const int people : {9, 12, 15, 18})
        CHECK(group(people).frames.p95.value() <= people / 3);
}

TEST_CASE("frames to shoot follow from the chance of one", "[plan][property]") {
    CHECK(frames_needed(1, 0.99) == 1);
    CHECK(frames_needed(0.9, 0.9) == 1);   // 1 − 0.1¹ = 0.9, with nothing to spare
    CHECK(frames_needed(0.9, 0.99) == 2);  // 1 − 0.1²
    CHECK(frames_needed(0.5, 0.9) == 4);   // 1 − ½⁴ = 0.9375, ½³ leaves 0.875
    CHECK_FALSE(frames_needed(0, 0.9));
    for (const double good : {0.01, 0.26, 0.61, 0.999}) {
        const auto frames = static_cast<double>(frames_needed(good, 0.95).value());
        CHECK(1 - std::pow(1 - good, frames) >= 0.95 - 1e-12);
        CHECK(1 - std::pow(1 - good, frames - 1) < 0.95);
    }
}

// One person's sway alone: the share of a normal distribution within the zone that the face table
// reports, which comes from another formula. Trials: a z-test at 4.5 standard errors.
TEST_CASE("one person's sway is the normal distribution over the zone of focus",
          "[plan][property]") {
    for (const double axial_m : {3.0, 3.03, 3.08, 2.93}) {
        auto scene = scene_of({with_eye_at("Odile", axial_m)});
        scene.odds.sway_mm = 30;
        const auto table = face_table(scene, scene::camera_view(scene));
        const double expected = within(axial_m, 0.030, table.zone.near_m, table.zone.far_m);
        const Odds odds = odds_of(scene);
        CAPTURE(axial_m, expected);
        CHECK_THAT(odds.sharp_closed_form.value(), WithinAbs(expected, 1e-9));
        CHECK_THAT(odds.sharp.value, WithinAbs(expected, 4.5 * odds.sharp.standard_error));
        CHECK(odds.faces[0].sharp.value == odds.sharp.value);
    }
}

// Sway of person and camera are independent, so their squares add: 30-40-50.
TEST_CASE("the photographer's sway and the subject's add as squares", "[plan][property]") {
    auto scene = scene_of({with_eye_at("Odile", 3.05)});
    scene.odds.sway_mm = 30;
    scene.odds.camera_sway_mm = 40;
    const auto both = all_sharp_by_integration(model_of(scene));
    scene.odds.sway_mm = 50;
    scene.odds.camera_sway_mm = 0;
    CHECK_THAT(both.value(), WithinAbs(all_sharp_by_integration(model_of(scene)).value(), 1e-10));
}

// The camera moves everybody together: two faces side by side hold or fail at once, where two who
// sway each on their own hold with the square of one's chance.
TEST_CASE("what the camera does to one face it does to all", "[plan][property]") {
    const auto two = [](double sway_mm, double camera_mm, std::size_t count) {
        auto scene = scene_of({with_eye_at("Odile", 3.05, -0.4), with_eye_at("Bram", 3.05, 0.4)});
        scene.people.resize(count);
        scene.odds.sway_mm = sway_mm;
        scene.odds.camera_sway_mm = camera_mm;
        return all_sharp_by_integration(model_of(scene)).value();
    };
    CHECK_THAT(two(0, 40, 2), WithinAbs(two(0, 40, 1), 1e-9));
    CHECK_THAT(two(40, 0, 2), WithinAbs(two(40, 0, 1) * two(40, 0, 1), 1e-9));
}

// Trials and integral share the model but not the way to the answer. z-tests at 4.5 standard
// errors.
TEST_CASE("a carried child sways with whoever carries it", "[plan][property]") {
    auto scene = scene_of({with_eye_at("Bram", 3.0), with_eye_at("Mia", 3.02)});
    scene.odds.sway_mm = 60;
    const double apart = odds_of(scene).sharp.value;
    scene.people[1].carrier = 0;
    const Odds together = odds_of(scene);
    // Each holds in 85 mm before and behind, and their zones lie 2 cm apart: both hold where one
    // error holds both, which is likelier than that two errors do.
    const FrameModel model = model_of(scene);
    const auto lens = landed(model, model.focus_m);
    const auto one = zone(model.faces[0], *lens), other = zone(model.faces[1], *lens);
    const double least =
        std::max(one->near_m - model.faces[0].axial_m, other->near_m - model.faces[1].axial_m);
    const double most =
        std::min(one->far_m - model.faces[0].axial_m, other->far_m - model.faces[1].axial_m);
    const double expected = within(0, 0.060, least, most);
    CHECK(std::abs(together.sharp.value - expected) < 4 * together.sharp.standard_error);
    REQUIRE(together.sharp_closed_form);
    CHECK_THAT(*together.sharp_closed_form, WithinAbs(expected, 1e-9));
    CHECK(together.sharp.value > apart + 0.02);
    CHECK(together.sharp.value < together.faces[1].sharp.value + 1e-12);
}

TEST_CASE("trials agree with the integral where everything goes wrong at once",
          "[plan][property]") {
    const auto check = [](const scene::Scene& scene) {
        const Odds odds = odds_of(scene, 400'000);
        REQUIRE(odds.sharp_closed_form);
        CHECK(*odds.sharp_closed_form > 0.05);
        CHECK(*odds.sharp_closed_form < 0.95);
        CHECK_THAT(odds.sharp.value,
                   WithinAbs(*odds.sharp_closed_form, 4.5 * odds.sharp.standard_error));
    };
    const scene::Scene scene = everything();
    check(scene);
    check(without(scene, Lapse::autofocus));
    check(without(scene, Lapse::camera));
    check(without(without(without(scene, Lapse::sway), Lapse::line_up), Lapse::autofocus));
    auto profiled = scene;
    profiled.lens.profile = optics::LensProfile{
        .widest_f_number = 1.2, .spherical_dpt = 0.008, .field_curvature_dpt = -0.006};
    check(profiled);
}

// Without any error, a frame is what the face table says.
TEST_CASE("with nothing going wrong the odds are those of the face table", "[plan][property]") {
    for (const double n : {1.2, 1.6, 2.0, 2.8, 4.0}) {
        auto scene = scene_of({with_eye_at("Odile", 2.9, -0.4), with_eye_at("Bram", 3.0),
                               with_eye_at("Sefu", 3.2, 0.5)});
        scene.camera.f_number = n;
        scene.lens.profile = optics::LensProfile{
            .widest_f_number = 1.2, .spherical_dpt = 0.02, .field_curvature_dpt = 0.02};
        const auto table = face_table(scene, scene::camera_view(scene));
        for (const auto grade : {optics::Grade::crisp, optics::Grade::fine}) {
            const Odds odds = odds_by_trials(model_of(scene, grade), {.trials = 10});
            CAPTURE(n);
            double all = 1;
            for (std::size_t i = 0; i < table.faces.size(); ++i) {
                const double expected = table.faces[i].grade <= grade ? 1 : 0;
                CHECK(odds.faces[i].sharp.value == expected);
                all = std::min(all, expected);
            }
            CHECK(odds.sharp.value == all);
            CHECK(odds.sharp_closed_form == all);
            if (all == 0)
                CHECK_FALSE(odds.frames.p90);
        }
    }
}

// A body turned into profile sways across the picture; what is left along the axis is sideways
// sway.
TEST_CASE("somebody in profile sways along the axis by the sideways share", "[plan][property]") {
    auto scene = scene_of({with_eye_at("Odile", 3.0)});
    scene.odds.sway_mm = 6;
    scene.odds.sideways_sway_mm = 3;
    const auto spread_mm = [&](double turn_deg) {
        scene.people[0].pose.turn_deg = turn_deg;
        return mm_from_m(model_of(scene).faces[0].spread_m);
    };
    CHECK_THAT(spread_mm(0), WithinRel(6, 1e-12));
    CHECK_THAT(spread_mm(180), WithinRel(6, 1e-12));
    CHECK_THAT(spread_mm(90), WithinRel(3, 1e-12));
    CHECK_THAT(spread_mm(45), WithinRel(std::sqrt(18 + 4.5), 1e-12));
    CHECK_THAT(spread_mm(-45), WithinRel(spread_mm(45), 1e-12));
}

// 0.1 s at 1.4 m/s is 140 mm of travel; the test's shutter adds 0.007 mm.
TEST_CASE("who walks towards the camera leaves the plane of focus while the shutter lags",
          "[plan][property]") {
    auto scene = scene_of({with_eye_at("Odile", 3.0)});
    scene.people[0].speed_mps = 1.4;
    scene.odds.delay_s = 0.1;
    CHECK_THAT(model_of(scene).faces[0].axial_m, WithinAbs(2.860, 1e-5));
    scene.people[0].heading_deg = 180;
    CHECK_THAT(model_of(scene).faces[0].axial_m, WithinAbs(3.140, 1e-5));
    scene.people[0].heading_deg = 90;
    CHECK_THAT(model_of(scene).faces[0].axial_m, WithinAbs(3.000, 1e-9));
    CHECK(model_of(without(scene, Lapse::motion)).faces[0].axial_m == Approx(3.0).epsilon(1e-12));
}

// b = m v t, m = f/(s − f) [JACOBSON], worked out apart for 50 mm, 3 m, 1.4 m/s, 1/125 s: 189.8 um.
// The walker of the test has moved by 5.6 mm across the axis in the middle of the exposure, not
// along it.
TEST_CASE("a walker across the picture fails by the streak alone", "[plan][published]") {
    auto scene = scene_of({with_eye_at("Odile", 3.0)});
    scene.people[0].speed_mps = 1.4;
    scene.people[0].heading_deg = 90;
    scene.camera.shutter_s = 1.0 / 125;
    CHECK_THAT(um_from_mm(model_of(scene).faces[0].streak_mm), WithinAbs(189.8, 0.05));
    CHECK(odds_of(scene, 10).sharp.value == 0);
    // The streak alone makes √(2/3)·ℓ, and three pixels are 0.018 mm: 1/1000 s (ℓ = 0.0237, so
    // 0.0194 mm) is too long, 1/2000 s is not.
    scene.camera.shutter_s = 1.0 / 1000;
    CHECK(odds_of(scene, 10).sharp.value == 0);
    scene.camera.shutter_s = 1.0 / 2000;
    CHECK(odds_of(scene, 10).sharp.value == 1);
}

// Locked at a straight 2 m and turned by 10°, a subject at 2·cos 10° along the axis: the plane ends
// 30.384 mm behind, that is at 2 m.
TEST_CASE("focus and recompose shifts the landing by the cosine error", "[plan][property]") {
    auto scene = scene_of({with_eye_at("Odile", 3.0)});
    const double axial_m = 2 * std::cos(10 * std::numbers::pi / 180);
    scene.focus = scene::FocusAtDistance{axial_m};
    scene.odds.recompose_deg = 10;
    CHECK_THAT(mm_from_m(model_of(scene).focus_m - axial_m), WithinAbs(30.384, 0.0005));
    CHECK(model_of(without(scene, Lapse::recompose)).focus_m == axial_m);
}

TEST_CASE("more of any error never helps a face in the plane of focus", "[plan][property]") {
    const auto chance = [](double scene::Odds::*error, double size) {
        auto scene = scene_of({with_eye_at("Odile", 3.0)});
        scene.odds.sway_mm = 15;
        scene.odds.*error = size;
        return all_sharp_by_integration(model_of(scene)).value();
    };
    for (const auto error :
         {&scene::Odds::sway_mm, &scene::Odds::camera_sway_mm, &scene::Odds::autofocus_mm,
          &scene::Odds::line_up_mm, &scene::Odds::recompose_deg}) {
        double before = 1;
        for (const double size : {10.0, 15.0, 25.0, 40.0}) {
            const double now = chance(error, size);
            CHECK(now < before);
            before = now;
        }
    }
}

TEST_CASE("each source of error can be left out alone", "[plan][property]") {
    const scene::Scene all = everything();
    CHECK(without(all, Lapse::sway).odds.sway_mm == 0);
    CHECK(without(all, Lapse::sway).odds.sideways_sway_mm == 0);
    CHECK(without(all, Lapse::camera).odds.camera_sway_mm == 0);
    CHECK(without(all, Lapse::autofocus).odds.autofocus_mm == 0);
    CHECK(without(all, Lapse::recompose).odds.recompose_deg == 0);
    CHECK(without(all, Lapse::line_up).odds.line_up_mm == 0);
    CHECK(all_eyes_open(model_of(without(all, Lapse::blinks))) == 1);
    CHECK(without(all, Lapse::motion).people[3].speed_mps == 0);
    CHECK(without(all, Lapse::motion).odds.sway_mm == all.odds.sway_mm);
}

TEST_CASE("the answer depends on the seed alone, not on threads", "[plan][property]") {
    const FrameModel model = model_of(everything());
    const Odds one = odds_by_trials(model, {.trials = 10'001, .seed = 9, .threads = 1});
    for (const int threads : {2, 3, 7}) {
        const Odds other = odds_by_trials(model, {.trials = 10'001, .seed = 9, .threads = threads});
        CHECK(other.sharp.value == one.sharp.value);
        for (std::size_t i = 0; i < one.faces.size(); ++i)
            CHECK(other.faces[i].sharp.value == one.faces[i].sharp.value);
    }
    const Odds reseeded = odds_by_trials(model, {.trials = 10'001, .seed = 10, .threads = 1});
    CHECK(reseeded.sharp.value != one.sharp.value);
}

TEST_CASE("who stands behind the lens is never sharp, and too long a blink never open",
          "[plan][property]") {
    auto scene = scene_of({with_eye_at("Odile", 3.0), with_eye_at("Bram", -200)});
    scene.camera.f_number = 128;
    scene.odds.blinks_per_min = 60;
    scene.odds.blink_s = 1;
    const Odds odds = odds_of(scene, 1000);
    CHECK(odds.faces[0].sharp.value == 1);
    CHECK(odds.faces[1].sharp.value == 0);
    CHECK(odds.sharp_closed_form == 0);
    CHECK(odds.eyes_open == 0);
    CHECK_FALSE(odds.frames.p99);
}

TEST_CASE("a spread that would take too long to integrate has no closed form", "[plan][property]") {
    auto scene = scene_of({with_eye_at("Odile", 3.0)});
    scene.odds.sway_mm = 0.01;
    scene.odds.camera_sway_mm = 500;
    CHECK_FALSE(all_sharp_by_integration(model_of(scene)));
    scene.odds.sway_mm = 0;
    scene.odds.camera_sway_mm = 0;
    scene.odds.autofocus_mm = 20;
    CHECK_FALSE(all_sharp_by_integration(model_of(scene)));
}
