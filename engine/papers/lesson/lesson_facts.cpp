#include "papers/lesson/lesson_facts.h"

#include "plan/comparing/carried_lens.h"
#include "plan/comparing/viewpoint.h"
#include "plan/faces/metering.h"
#include "plan/faces/stop_down.h"
#include "plan/odds/frame_model.h"
#include "scene/camera_view.h"
#include "scene/limits.h"
#include "scene/rows.h"

#include "optics/exposure/stops.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <thread>

namespace backrow::papers {
namespace {

constexpr std::size_t most_values = 3;
constexpr double narrowest_f_number = 16;

std::size_t whole_heads(const scene::Scene& scene) {
    const plan::FaceTable table = plan::face_table(scene, camera_view(scene));
    return static_cast<std::size_t>(std::ranges::count_if(
        table.faces, [](const plan::Face& face) { return face.cropping.has_whole_head; }));
}

/// From near to far.
std::vector<double> distances_m(const scene::Scene& scene) {
    const double own_m = scene.camera.lens_to_mark_m;
    const scene::Scene bound = plan::bound_to_places(scene);
    const auto is_good = [&](double m) {
        if (m > scene::limits::lens_to_mark_m.greatest)
            return false;
        if (m > own_m)
            return true;
        scene::Scene there = bound;
        there.camera.lens_to_mark_m = m;
        return plan::nearest_viewpoint_m(bound, own_m, m) == m &&
               whole_heads(there) >= whole_heads(scene);
    };
    std::vector<double> all_m{own_m};
    for (const double times : {1 / std::numbers::sqrt2, std::numbers::sqrt2, 2.0, 0.5}) {
        constexpr double steps_a_metre = 100;
        const double m = std::round(steps_a_metre * times * own_m) / steps_a_metre;
        if (all_m.size() < most_values && m != own_m && is_good(m))
            all_m.push_back(m);
    }
    std::ranges::sort(all_m);
    return all_m;
}

double stops_of(double engraved) {
    return optics::stops_from_f_number(optics::exact_f_number(engraved));
}

/// From wide to narrow.
std::vector<double> f_numbers(const scene::Scene& scene) {
    const double own = scene.camera.f_number;
    const double widest = scene.lens.profile ? scene.lens.profile->widest_f_number : 0;
    const double narrowest = std::min(narrowest_f_number, plan::narrowest_f_number(scene));
    std::vector<double> all{own};
    for (const double stops : {2, 4, -2, -4}) {
        const auto off = [&](double mark) {
            return std::abs(stops_of(mark) - stops_of(own) - stops);
        };
        const double mark = *std::ranges::min_element(optics::marked_f_numbers(), {}, off);
        constexpr double between_marks = 0.3;
        if (all.size() < most_values && off(mark) < between_marks && mark >= widest &&
            mark <= narrowest)
            all.push_back(mark);
    }
    std::ranges::sort(all);
    return all;
}

template <class Values, class Value, class Part = std::identity>
std::size_t index_of(const Values& values, const Value& value, const Part& part = {}) {
    return static_cast<std::size_t>(
        std::distance(values.begin(), std::ranges::find(values, value, part)));
}

ApertureExercise aperture_exercise(const scene::Scene& scene, const plan::FaceTable& table) {
    const auto amount = [](const plan::Face& face) { return face.judged_blur.amount; };
    ApertureExercise exercise;
    const auto most = std::ranges::max_element(table.faces, {}, amount);
    exercise.most_blurred = static_cast<std::size_t>(std::distance(table.faces.begin(), most));
    const optics::BlurUnit unit = most->judged_blur.unit;
    if (amount(*most) <= limit_of(optics::Grade::fine, unit))
        exercise.grade = optics::Grade::crisp;
    exercise.times_limit = amount(*most) / limit_of(exercise.grade, unit);
    exercise.f_number = plan::f_number_for_margin(scene, 0, exercise.grade);
    if (exercise.f_number) {
        scene::Scene there = scene;
        there.camera.f_number = *exercise.f_number;
        exercise.stops_lost = optics::stops_between(scene.camera.f_number, *exercise.f_number);
        exercise.exposure = plan::exposure_setting(plan::rightly_exposed(there).camera);
    }
    return exercise;
}

FocusExercise focus_exercise(scene::Scene scene, const plan::FaceTable& table) {
    const auto [nearest, farthest] =
        std::ranges::minmax_element(table.faces, {}, &plan::Face::axial_m);
    scene.focus = scene::FocusBalanced{};
    const plan::FaceTable balanced = plan::face_table(scene, camera_view(scene));
    const auto blur_px = [&](auto face) {
        return balanced.faces[static_cast<std::size_t>(face - table.faces.begin())]
            .predicted_blur_px;
    };
    return {.nearest_m = nearest->axial_m,
            .farthest_m = farthest->axial_m,
            .focus_m = balanced.focus_m,
            .blur_px = std::max(blur_px(nearest), blur_px(farthest))};
}

FramesExercise frames_exercise(scene::Scene scene, const ApertureExercise& answer) {
    if (answer.f_number) {
        scene.camera.f_number = *answer.f_number;
        scene.camera.shutter_s = answer.exposure.shutter_s;
        scene.camera.iso = answer.exposure.iso;
        scene.camera.filter_stops = answer.exposure.filter_stops;
    }
    const plan::FrameModel model =
        plan::frame_model(scene, camera_view(scene), optics::Grade::fine);
    return {.f_number = scene.camera.f_number,
            .eyes_open_each = model.eyes_open_each,
            .odds = plan::odds_by_trials(
                model,
                {.threads = std::max(1, static_cast<int>(std::thread::hardware_concurrency()))})};
}

}  // namespace

LessonFacts lesson_facts(const scene::Scene& scene) {
    LessonFacts facts{.scene = scene};
    const scene::CameraView view = camera_view(scene);
    facts.rows = scene::as_they_stand(scene, view).size();
    facts.table = plan::face_table(scene, view);
    std::vector<plan::StripPlace> places;
    for (const double m : distances_m(scene))
        places.push_back({.lens_to_mark_m = m, .focal_length_mm = scene.camera.focal_length_mm});
    facts.strip = plan::strip(scene, places, f_numbers(scene));
    facts.own_place =
        index_of(places, scene.camera.lens_to_mark_m, &plan::StripPlace::lens_to_mark_m);
    facts.own_aperture = index_of(facts.strip.f_numbers, scene.camera.f_number);
    facts.aperture = aperture_exercise(scene, facts.table);
    facts.focus = focus_exercise(scene, facts.table);
    facts.frames = frames_exercise(scene, facts.aperture);
    return facts;
}

}  // namespace backrow::papers
