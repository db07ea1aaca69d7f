#include "rehearsal/hands/handling.h"

#include "rehearsal/hands/group_handling.h"
#include "rehearsal/hands/hand_words.h"
#include "rehearsal/told/differences.h"

#include "plan/faces/whole_group.h"
#include "scene/camera_view.h"
#include "scene/limits.h"
#include "scene/set_words.h"
#include "scene/settle.h"
#include "scene/words.h"

#include "optics/exposure/stops.h"

#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>
#include <variant>

namespace backrow::rehearsal {
namespace {

/// The mark some steps along a ring whose marks are sorted; from a value between two marks the
/// first step goes to the next one.
double along_ring(std::span<const double> marks, double now, int steps) {
    constexpr double same = 1e-3;
    auto at = static_cast<std::ptrdiff_t>(std::ranges::lower_bound(marks, now * (1 - same)) -
                                          marks.begin());
    const auto count = static_cast<std::ptrdiff_t>(marks.size());
    const bool on_a_mark =
        at < count && std::abs(marks[static_cast<std::size_t>(at)] - now) <= same * now;
    if (!on_a_mark && steps > 0)
        --at;
    at = std::clamp<std::ptrdiff_t>(at + steps, 0, count - 1);
    return marks[static_cast<std::size_t>(at)];
}

struct FocusValue {
    std::string operator()(const scene::FocusOnPerson& on) const {
        return scene::set_words("focus.on", on.name);
    }
    std::string operator()(const scene::FocusBalanced&) const { return "focus.balanced=true"; }
    std::string operator()(const scene::FocusAtDistance& at) const {
        return scene::set_number("focus.distance_m", at.axial_m);
    }
    std::string operator()(const scene::FromMark& point) const {
        return fmt::format("focus.point=[{}, {}, {}]", scene::toml_number(point.across_m),
                           scene::toml_number(point.up_m), scene::toml_number(point.back_m));
    }
};

}  // namespace

Change lead(const scene::Scene& scene, std::size_t person, double across_m, double back_m,
            bool snaps) {
    const scene::Person& who = scene.people[on_whose_feet(scene.people, person)];
    const bool stays_in_line = snaps && who.row >= 0;
    const double to_the_right_m = across_m - who.place.across_m;
    const double to_the_back_m = stays_in_line ? -who.own.back_m : back_m - who.place.back_m;
    return step(scene, person, to_the_right_m, to_the_back_m);
}

Change step(const scene::Scene& scene, std::size_t person, double across_m, double back_m) {
    return step(scene, std::span{&person, 1}, across_m, back_m);
}

Change turn(const scene::Scene& scene, std::size_t person, double turn_deg) {
    const scene::Person& who = scene.people[on_whose_feet(scene.people, person)];
    const double degrees = std::round(std::remainder(turn_deg, 360));
    return {.what = "Turn " + who.name,
            .values = {scene::set_person_number(who.name, "turn_deg", degrees)}};
}

Change turn_towards(const scene::Scene& scene, std::size_t person, double across_m, double back_m) {
    const scene::FromMark& place = scene.people[person].place;
    const double right_m = across_m - place.across_m;
    const double forward_m = place.back_m - back_m;
    return turn(scene, person, deg_from_rad(std::atan2(right_m, forward_m)));
}

Change lean(const scene::Scene& scene, std::size_t person, double lean_m) {
    const scene::Person& who = scene.people[person];
    const double within =
        std::clamp(lean_m, scene::limits::lean_m.least, scene::limits::lean_m.greatest);
    return {.what = "Lean " + who.name,
            .values = {scene::set_person_number(who.name, "lean_m", to_the_centimetre(within))}};
}

Change take_posture(const scene::Scene& scene, std::size_t person, figures::Posture posture) {
    const scene::Person& who = scene.people[person];
    const std::string word{scene::word_for(scene::words::posture, posture)};
    return {.what = who.name + ' ' + word,
            .values = {scene::set_words(scene::person_key(who.name, "posture"), word)}};
}

Change grow(const scene::Scene& scene, std::size_t person, double stature_m) {
    const scene::Person& who = scene.people[person];
    const double within = std::clamp(to_the_centimetre(stature_m), scene::limits::stature_m.least,
                                     scene::limits::stature_m.greatest);
    return {.what = who.name + "'s height",
            .values = {scene::set_person_number(who.name, "stature_m", within)}};
}

Change carry_camera(const scene::Scene& scene, double lens_to_mark_m, double across_m) {
    const scene::Camera& camera = scene.camera;
    const double distance_m =
        std::clamp(to_the_centimetre(lens_to_mark_m), scene::limits::lens_to_mark_m.least,
                   scene::limits::lens_to_mark_m.greatest);
    const double sideways_m =
        std::clamp(to_the_centimetre(across_m), scene::limits::camera_across_m.least,
                   scene::limits::camera_across_m.greatest);
    Change change{.what = "Carry the camera", .values = {}};
    if (sideways_m != camera.across_m) {
        change.values.push_back(scene::set_number("camera.across_m", sideways_m));
    }
    if (distance_m != camera.lens_to_mark_m) {
        change.values.push_back(scene::set_number("camera.distance_m", distance_m));
    }
    return change;
}

Change raise_camera(double height_m) {
    const double within = std::clamp(to_the_centimetre(height_m), scene::limits::height_m.least,
                                     scene::limits::height_m.greatest);
    return {.what = "Camera's height", .values = {scene::set_number("camera.height_m", within)}};
}

std::optional<Change> frame_group(const scene::Scene& scene) {
    scene::Scene aimed = scene;
    aimed.camera.aim = scene::AimAtGroup{};
    // So near that the focus may lie behind the lens: a plane serves to try.
    aimed.focus = scene::FocusAtDistance{camera_view(scene).lens.focus_m};
    constexpr double nearer = 3;
    aimed.camera.lens_to_mark_m =
        std::max(scene::limits::lens_to_mark_m.least, scene.camera.lens_to_mark_m / nearer);
    const auto from_m = plan::whole_group(aimed).lens_to_mark_m;
    if (!from_m)
        return std::nullopt;
    return Change{.what = "Frame the group",
                  .values = {scene::set_words("camera.aim", "group"),
                             scene::set_number("camera.distance_m", *from_m)}};
}

Change aim_at_group() {
    return {.what = "Aim at the group", .values = {scene::set_words("camera.aim", "group")}};
}

Change aim_at(const scene::Scene& scene, std::size_t person) {
    const std::string& name = scene.people[person].name;
    return {.what = "Aim at " + name, .values = {scene::set_words("camera.aim", name)}};
}

Change keep_level(bool level) {
    return {.what = level ? "Camera level" : "Camera tilted",
            .values = {level ? "camera.level=true" : "camera.level=false"}};
}

Change orient_camera(scene::Orientation orientation) {
    const std::string word{scene::word_for(scene::words::orientation, orientation)};
    return {.what = "Camera held for " + word,
            .values = {scene::set_words("camera.orientation", word)}};
}

Change type_in(std::string_view key, double value) {
    return {.what = "Type a value", .values = {scene::set_number(key, value)}};
}

Change stop_down(const scene::Scene& scene, int thirds) {
    double f_number = along_ring(optics::marked_f_numbers(), scene.camera.f_number, thirds);
    if (const auto& profile = scene.lens.profile)
        f_number =
            std::clamp(f_number, profile->widest_f_number, optics::narrowest_f_number(*profile));
    return {.what = "f/" + plain(f_number),
            .values = {scene::set_number("camera.f_number", f_number)}};
}

Change shorten_shutter(const scene::Scene& scene, int thirds) {
    const auto slow_to_fast = optics::marked_shutters_s();
    const std::vector<double> marks(slow_to_fast.rbegin(), slow_to_fast.rend());
    const double shutter_s = along_ring(marks, scene.camera.shutter_s, -thirds);
    return {.what = optics::shutter_words(shutter_s),
            .values = {scene::set_number("camera.shutter_s", shutter_s)}};
}

Change raise_iso(const scene::Scene& scene, int thirds) {
    const double iso = along_ring(optics::marked_isos(), scene.camera.iso, thirds);
    return {.what = "ISO " + plain(iso), .values = {scene::set_number("camera.iso", iso)}};
}

Change zoom(double focal_length_mm) {
    constexpr double whole_from_mm = 10;
    const double within = std::clamp(focal_length_mm, scene::limits::focal_length_mm.least,
                                     scene::limits::focal_length_mm.greatest);
    const double mm = within >= whole_from_mm ? std::round(within) : within;
    return {.what = plain(mm) + " mm", .values = {scene::set_number("camera.focal_length_mm", mm)}};
}

Change take_lens(const scene::Scene& scene, const scene_file::BagLens& lens) {
    Change change{.what = lens.name,
                  .values = {scene::set_number("camera.focal_length_mm", lens.focal_length_mm)}};
    if (scene.camera.f_number < lens.widest_f_number)
        change.values.push_back(scene::set_number("camera.f_number", lens.widest_f_number));
    if (lens.profile != scene.lens.profile_file)
        change.values.push_back(scene::set_words("lens.profile", lens.profile));
    return change;
}

Change take_own_lens(const scene::Scene& scene, const std::string& named,
                     const scene_file::NamedLensProfile& lens) {
    Change change{.what = lens.title, .values = {scene::set_words("lens.profile", named)}};
    const double f_number = std::clamp(scene.camera.f_number, lens.profile.widest_f_number,
                                       optics::narrowest_f_number(lens.profile));
    if (f_number != scene.camera.f_number)
        change.values.push_back(scene::set_number("camera.f_number", f_number));
    return change;
}

Change take_perfect_lens(const scene::Scene& scene) {
    Change change{.what = "Perfect lens", .values = {}};
    if (!scene.lens.profile_file.empty())
        change.values = {scene::set_words("lens.profile", "")};
    return change;
}

Change take_body(const scene_file::BagBody& body) {
    return {
        .what = body.name,
        .values = {fmt::format("camera.sensor_mm=[{}, {}]", scene::toml_number(body.sensor_mm[0]),
                               scene::toml_number(body.sensor_mm[1])),
                   fmt::format("camera.pixels=[{:.0f}, {:.0f}]", body.pixels[0], body.pixels[1])}};
}

scene_file::BagLens lens_on_camera(const scene::Scene& scene) {
    scene_file::BagLens lens{.name = "",
                             .focal_length_mm = scene.camera.focal_length_mm,
                             .widest_f_number = scene.lens.profile
                                                    ? scene.lens.profile->widest_f_number
                                                    : scene.camera.f_number,
                             .profile = scene.lens.profile_file};
    lens.name = usual_name(lens);
    return lens;
}

scene_file::BagBody body_of_camera(const scene::Scene& scene) {
    scene_file::BagBody body{.name = "",
                             .sensor_mm = {scene.camera.sensor_mm[0], scene.camera.sensor_mm[1]},
                             .pixels = {static_cast<double>(scene.camera.pixels[0]),
                                        static_cast<double>(scene.camera.pixels[1])}};
    body.name = usual_name(body);
    return body;
}

Change focus_on(const scene::Scene& scene, std::size_t person) {
    const std::string& name = scene.people[person].name;
    return {.what = "Focus on " + name, .values = {scene::set_words("focus.on", name)}};
}

std::string value_of_focus(const scene::Focus& focus) {
    return std::visit(FocusValue{}, focus);
}

Change focus_evenly() {
    return {.what = "Focus evenly", .values = {"focus.balanced=true"}};
}

Change focus_at(double axial_m) {
    const double within = std::clamp(to_the_centimetre(axial_m), scene::limits::focus_axial_m.least,
                                     scene::limits::focus_axial_m.greatest);
    return {.what = "Focus", .values = {scene::set_number("focus.distance_m", within)}};
}

Change view_as(const scene::Viewing& viewing) {
    const auto words = [](const scene::Viewing& seen) {
        return viewing_words(seen, Units::metric);
    };
    Change change{.what = "Seen otherwise", .values = {}};
    for (const auto& [word, use] : scene::words::use)
        if (words(scene::viewing_for(use)) == words(viewing))
            change.values = {scene::set_words("viewing.use", word)};
    if (const auto* print = std::get_if<optics::PrintViewing>(&viewing);
        print != nullptr && change.values.empty())
        change.values = {
            scene::set_number("viewing.print_long_side_cm",
                              std::clamp(print->long_side_cm,
                                         scene::limits::print_long_side_cm.least,
                                         scene::limits::print_long_side_cm.greatest)),
            scene::set_number("viewing.viewing_distance_cm",
                              std::clamp(print->distance_cm,
                                         scene::limits::viewing_distance_cm.least,
                                         scene::limits::viewing_distance_cm.greatest))};
    return change;
}

}  // namespace backrow::rehearsal
