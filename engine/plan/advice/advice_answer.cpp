#include "plan/advice/advice_answer.h"

#include "plan/faces/head_in_picture.h"
#include "plan/faces/verdict.h"
#include "plan/faces/worst_face.h"
#include "scene/judged_blur.h"
#include "scene/set_words.h"
#include "scene/settle.h"

#include "optics/blur/blur_circle.h"
#include "optics/contrast/diffraction.h"
#include "optics/exposure/stops.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <variant>

namespace backrow::plan {
namespace {

/// How much of a face must show, unless less shows already.
constexpr double visible_enough = 0.9;

/// Whether one asks for nothing that the other does not ask for, and is as good.
bool makes_needless(const Answer& one, const Answer& other) {
    constexpr double as_good = 0.98;
    const auto between = [](const Answer& answer) {
        return std::holds_alternative<scene::FocusAtDistance>(answer.scene.focus);
    };
    const auto same = [](double a, double b) { return std::abs(a - b) < 1e-9; };
    const scene::Camera& a = one.scene.camera;
    const scene::Camera& b = other.scene.camera;
    return one.background.percent_of_height >= as_good * other.background.percent_of_height &&
           one.moves.size() <= other.moves.size() && one.moved_cm() <= other.moved_cm() &&
           same(a.focal_length_mm, b.focal_length_mm) && same(a.lens_to_mark_m, b.lens_to_mark_m) &&
           (!between(one) || between(other));
}

/// The largest blur of all when anybody drifts along the axis; where the camera focuses on
/// somebody, also when they do and it follows.
double drifted_blur_mm(const scene::Scene& scene, const scene::CameraView& view,
                       const std::optional<std::size_t>& on, double margin_m) {
    double worst_mm = 0;
    for (const double by_m : {-margin_m, margin_m}) {
        const auto followed = view.focused().focused_at(view.lens.focus_m + by_m);
        for (std::size_t i = 0; i < scene.people.size(); ++i) {
            const scene::Seen eye = project(view, nearer_eye_m(view, scene.people[i]));
            worst_mm =
                std::max(worst_mm, optics::blur_diameter_mm(view.focused(), eye.axial_m + by_m,
                                                            eye.image_height));
            if (on && *on != i && followed)
                worst_mm = std::max(
                    worst_mm, optics::blur_diameter_mm(*followed, eye.axial_m, eye.image_height));
        }
    }
    return worst_mm;
}

}  // namespace

int Answer::moved_cm() const {
    int sum = 0;
    for (const Move& move : moves)
        sum += std::abs(move.back_cm);
    return sum;
}

double mean_head_px(const scene::Scene& scene) {
    const scene::CameraView view = camera_view(scene);
    double sum = 0;
    for (const scene::Person& person : scene.people)
        sum += face_height_px(view, scene::reference_points(person));
    return sum / static_cast<double>(scene.people.size());
}

Answer realised(const scene::Scene& now, const AdviceWanted& wanted, const Viewpoint& at,
                double f_number, const Stance& stance) {
    Answer answer;
    answer.scene = at.scene;
    scene::Scene& scene = answer.scene;
    scene.camera.f_number = f_number;
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const int cm = stance.moves_cm[i];
        if (cm == 0)
            continue;
        scene::Person& person = scene.people[i];
        if (person.carrier >= 0)
            continue;  // Nobody is asked to move who has no feet on the ground.
        person.place.back_m += m_from_cm(cm);
        person.own.back_m += m_from_cm(cm);
        answer.moves.push_back({.name = person.name, .back_cm = cm});
    }
    if (!answer.moves.empty())
        settle(scene.people);
    answer.cautions = cautions(now, scene);
    if (stance.on)
        scene.focus = scene::FocusOnPerson{scene.people[*stance.on].name};
    else
        scene.focus = scene::FocusAtDistance{stance.focus_m};
    answer.view = camera_view(scene);
    answer.table = face_table(scene, answer.view);
    answer.margins = margins(scene, answer.view, wanted.grade);
    answer.background = background(scene, answer.view);

    const double size = mean_head_px(scene) / mean_head_px(now);
    answer.framing = {.size = size,
                      .crop = std::max(1.0, 1 / size),
                      .restoring_focal_length_mm = scene.camera.focal_length_mm / size};
    const double limit_mm = grade_limit_mm(wanted.grade, scene.viewing, answer.view);
    const auto share_of_limit = [&](double blur_mm) {
        return optics::with_diffraction_mm(blur_mm, answer.table.diffraction_mm) / limit_mm;
    };
    answer.worst = worst_face(answer.table.faces);
    const double crop = wanted.after_crop ? answer.framing.crop : 1;
    answer.worst_share =
        share_of_limit(
            std::ranges::max(answer.table.faces, {}, &Face::predicted_blur_px).predicted_blur_px /
            answer.view.px_per_mm()) *
        crop;
    answer.drifted_share =
        std::max(answer.worst_share, share_of_limit(drifted_blur_mm(scene, answer.view, stance.on,
                                                                    m_from_cm(wanted.margin_cm))) *
                                         crop);

    answer.stops_lost = optics::stops_between(now.camera.f_number, f_number);
    const optics::ExposureSetting right = right_exposure(now, answer.view, answer.table.metering);
    scene.camera.shutter_s = right.shutter_s;
    scene.camera.iso = right.iso;
    scene.camera.filter_stops = right.filter_stops;
    answer.table.metering = metering(scene, answer.view);
    return answer;
}

std::vector<std::string> values_for(const scene::Scene& now, const Answer& answer) {
    const scene::Camera& camera = answer.scene.camera;
    std::vector<std::string> values{scene::set_number("camera.f_number", camera.f_number)};
    const auto set_changed = [&](const char* key, double scene::Camera::*value) {
        if (camera.*value != now.camera.*value)
            values.push_back(scene::set_number(key, camera.*value));
    };
    set_changed("camera.shutter_s", &scene::Camera::shutter_s);
    set_changed("camera.iso", &scene::Camera::iso);
    set_changed("camera.filter_stops", &scene::Camera::filter_stops);
    set_changed("camera.distance_m", &scene::Camera::lens_to_mark_m);
    set_changed("camera.focal_length_mm", &scene::Camera::focal_length_mm);
    if (answer.scene.lens.profile != now.lens.profile)
        values.push_back(scene::set_words("lens.profile", answer.scene.lens.profile_file));
    if (const auto* on = std::get_if<scene::FocusOnPerson>(&answer.scene.focus))
        values.push_back(scene::set_words("focus.on", on->name));
    else
        values.push_back(scene::set_number("focus.distance_m", answer.view.lens.focus_m));
    for (std::size_t i = 0; i < now.people.size(); ++i) {
        const double back_m = answer.scene.people[i].own.back_m;
        if (back_m != now.people[i].own.back_m)
            values.push_back(scene::set_person_number(now.people[i].name, "back_m", back_m));
    }
    return values;
}

bool keeps_faces_in_sight(const Answer& answer, const FaceTable& now) {
    for (std::size_t i = 0; i < now.faces.size(); ++i) {
        const Face& before = now.faces[i];
        const Face& after = answer.table.faces[i];
        if (!is_seen(after) ||
            after.visible_fraction < std::min(before.visible_fraction, visible_enough))
            return false;
    }
    return true;
}

bool holds(const Answer& answer, const AdviceWanted& wanted) {
    return answer.drifted_share <= 1 &&
           std::ranges::all_of(answer.table.faces,
                               [&](const Face& face) { return face.grade <= wanted.grade; });
}

std::vector<Answer> ranked(std::vector<Answer> pool) {
    std::ranges::stable_sort(pool, [](const Answer& a, const Answer& b) {
        if (a.background.percent_of_height != b.background.percent_of_height)
            return a.background.percent_of_height > b.background.percent_of_height;
        return a.moved_cm() < b.moved_cm();
    });
    std::vector<Answer> kept;
    for (std::size_t i = 0; i < pool.size(); ++i) {
        bool needless = false;
        for (std::size_t j = 0; j < pool.size() && !needless; ++j)
            needless = i != j && makes_needless(pool[j], pool[i]) &&
                       (j < i || !makes_needless(pool[i], pool[j]));
        if (!needless)
            kept.push_back(pool[i]);
    }
    // Too many to choose from: the one for which nobody moves stays, with the most blurred.
    constexpr std::size_t most_answers = 6;
    if (kept.size() > most_answers) {
        const auto simple =
            std::ranges::find_if(kept, [](const Answer& answer) { return answer.moves.empty(); });
        const bool is_late = simple != kept.end() &&
                             simple - kept.begin() >= static_cast<std::ptrdiff_t>(most_answers);
        if (is_late)
            std::iter_swap(kept.begin() + most_answers - 1, simple);
        kept.erase(kept.begin() + most_answers, kept.end());
    }
    return kept;
}

}  // namespace backrow::plan
