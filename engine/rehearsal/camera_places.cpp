#include "rehearsal/camera_places.h"

#include "rehearsal/hand_words.h"

#include "scene/set_words.h"
#include "scene/words.h"

#include "optics/viewing.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <variant>
#include <vector>

namespace backrow::rehearsal {
namespace {

bool is_there(const scene::Scene& scene, const std::string& name) {
    return std::ranges::find(scene.people, name, &scene::Person::name) != scene.people.end();
}

struct AimValue {
    std::string operator()(const scene::AimAtGroup&) const {
        return scene::set_words("camera.aim", "group");
    }
    std::string operator()(const scene::AimAtPerson& at) const {
        return scene::set_words("camera.aim", at.name);
    }
    std::string operator()(const scene::FromMark& point) const {
        return fmt::format("camera.aim=[{}, {}, {}]", scene::toml_number(point.across_m),
                           scene::toml_number(point.up_m), scene::toml_number(point.back_m));
    }
};

}  // namespace

CameraPlace camera_place(const scene::Scene& scene) {
    return {.camera = scene.camera, .focus = scene.focus, .lens = scene.lens};
}

std::optional<scene::Scene> seen_from(scene::Scene scene, const CameraPlace& place) {
    const auto* focus = std::get_if<scene::FocusOnPerson>(&place.focus);
    const auto* aim = std::get_if<scene::AimAtPerson>(&place.camera.aim);
    if ((focus != nullptr && !is_there(scene, focus->name)) ||
        (aim != nullptr && !is_there(scene, aim->name)))
        return std::nullopt;
    scene.camera = place.camera;
    scene.focus = place.focus;
    scene.lens = place.lens;
    return scene;
}

Change go_to(const scene::Scene& scene, const CameraPlace& place) {
    const scene::Camera& now = scene.camera;
    const scene::Camera& then = place.camera;
    Change change{.what = "Back to a place of the camera", .values = {}};
    const auto set = [&](const char* key, double before, double after) {
        if (before != after)
            change.values.push_back(scene::set_number(key, after));
    };
    set("camera.distance_m", now.lens_to_mark_m, then.lens_to_mark_m);
    set("camera.across_m", now.across_m, then.across_m);
    set("camera.height_m", now.height_m, then.height_m);
    set("camera.focal_length_mm", now.focal_length_mm, then.focal_length_mm);
    set("camera.f_number", now.f_number, then.f_number);
    set("camera.shutter_s", now.shutter_s, then.shutter_s);
    set("camera.iso", now.iso, then.iso);
    set("camera.filter_stops", now.filter_stops, then.filter_stops);
    if (now.orientation != then.orientation)
        change.values.push_back(scene::set_words(
            "camera.orientation", scene::word_for(scene::words::orientation, then.orientation)));
    if (now.level != then.level)
        change.values.push_back(then.level ? "camera.level=true" : "camera.level=false");
    if (std::visit(AimValue{}, now.aim) != std::visit(AimValue{}, then.aim))
        change.values.push_back(std::visit(AimValue{}, then.aim));
    if (value_of_focus(scene.focus) != value_of_focus(place.focus))
        change.values.push_back(value_of_focus(place.focus));
    if (scene.lens.profile_file != place.lens.profile_file)
        change.values.push_back(scene::set_words("lens.profile", place.lens.profile_file));
    return change;
}

std::string place_words(const CameraPlace& place, Units units) {
    const scene::Camera& camera = place.camera;
    return fmt::format("{} mm f/{} from {}{}", plain(camera.focal_length_mm),
                       plain(camera.f_number), in_m(camera.lens_to_mark_m, units),
                       camera.orientation == scene::Orientation::portrait ? ", portrait" : "");
}

std::string standing_words(const Standing& standing) {
    std::vector<std::string> grades;
    for (std::size_t i = 0; i < standing.faces_of_grade.size(); ++i)
        if (standing.faces_of_grade[i] > 0)
            grades.push_back(fmt::format("{} {}", standing.faces_of_grade[i],
                                         optics::to_word(static_cast<optics::Grade>(i))));
    return fmt::format("{}; background {:.2f} %", fmt::join(grades, ", "),
                       standing.background_percent);
}

}  // namespace backrow::rehearsal
