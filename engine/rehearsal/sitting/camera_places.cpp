#include "rehearsal/sitting/camera_places.h"

#include "rehearsal/hands/hand_words.h"

#include "scene/index_of.h"
#include "scene/set_words.h"
#include "scene/words.h"

#include "optics/blur/viewing.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <utility>
#include <variant>
#include <vector>

namespace backrow::rehearsal {
namespace {

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
    if ((focus != nullptr && !index_of(scene, focus->name)) ||
        (aim != nullptr && !index_of(scene, aim->name)))
        return std::nullopt;
    scene.camera = place.camera;
    scene.focus = place.focus;
    scene.lens = place.lens;
    return scene;
}

std::vector<std::string> values_of(const CameraPlace& place) {
    const scene::Camera& camera = place.camera;
    return {scene::set_number("camera.distance_m", camera.lens_to_mark_m),
            scene::set_number("camera.across_m", camera.across_m),
            scene::set_number("camera.height_m", camera.height_m),
            scene::set_number("camera.focal_length_mm", camera.focal_length_mm),
            scene::set_number("camera.f_number", camera.f_number),
            scene::set_number("camera.shutter_s", camera.shutter_s),
            scene::set_number("camera.iso", camera.iso),
            scene::set_number("camera.filter_stops", camera.filter_stops),
            scene::set_words("camera.orientation",
                             scene::word_for(scene::words::orientation, camera.orientation)),
            camera.level ? "camera.level=true" : "camera.level=false",
            std::visit(AimValue{}, camera.aim),
            value_of_focus(place.focus),
            scene::set_words("lens.profile", place.lens.profile_file)};
}

Change go_to(const scene::Scene& scene, const CameraPlace& place) {
    const std::vector<std::string> now = values_of(camera_place(scene));
    Change change{.what = "Back to a place of the camera", .values = {}};
    for (std::string& value : values_of(place))
        if (std::ranges::find(now, value) == now.end())
            change.values.push_back(std::move(value));
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
