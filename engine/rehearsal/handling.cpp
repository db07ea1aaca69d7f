#include "rehearsal/handling.h"

#include "scene/scene_keys.h"
#include "scene/set_words.h"
#include "scene/settle.h"

#include "optics/stops.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <span>

namespace backrow::rehearsal {
namespace {

namespace keys = scene::keys;

double to_the_centimetre(double metres) {
    return m_from_cm(std::round(cm_from_m(metres)));
}

std::string in_cm(double metres) {
    return std::to_string(std::lround(cm_from_m(metres))) + " cm";
}

std::string in_m(double metres) {
    return scene::toml_number(to_the_centimetre(metres)) + " m";
}

std::string person_number(const scene::Person& person, std::string_view key, double value) {
    return scene::set_number(scene::person_key(person.name, key), value);
}

/// How a step reads: "4 cm back", "2 cm to the right and 1 cm forward".
std::string step_words(double across_m, double back_m) {
    std::string words;
    if (std::lround(cm_from_m(across_m)) != 0)
        words = in_cm(std::abs(across_m)) + (across_m > 0 ? " to the right" : " to the left");
    if (std::lround(cm_from_m(back_m)) != 0)
        words += (words.empty() ? "" : " and ") + in_cm(std::abs(back_m)) +
                 (back_m > 0 ? " back" : " forward");
    return words;
}

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
    const scene::Person& who = scene.people[on_whose_feet(scene.people, person)];
    const double own_across_m = to_the_centimetre(who.own.across_m + across_m);
    const double own_back_m = to_the_centimetre(who.own.back_m + back_m);
    const std::string words =
        step_words(own_across_m - who.own.across_m, own_back_m - who.own.back_m);
    if (words.empty())
        return {};
    Change change{.what = who.name + ' ' + words, .values = {}};
    if (own_across_m != who.own.across_m)
        change.values.push_back(person_number(who, "across_m", own_across_m));
    if (own_back_m != who.own.back_m)
        change.values.push_back(person_number(who, "back_m", own_back_m));
    return change;
}

Change turn(const scene::Scene& scene, std::size_t person, double turn_deg) {
    const scene::Person& who = scene.people[on_whose_feet(scene.people, person)];
    const double degrees = std::round(std::remainder(turn_deg, 360));
    return {.what = "Turn " + who.name, .values = {person_number(who, "turn_deg", degrees)}};
}

Change lean(const scene::Scene& scene, std::size_t person, double lean_m) {
    const scene::Person& who = scene.people[person];
    const double within = std::clamp(lean_m, keys::lean_m.least, keys::lean_m.greatest);
    return {.what = "Lean " + who.name,
            .values = {person_number(who, "lean_m", to_the_centimetre(within))}};
}

Change take_posture(const scene::Scene& scene, std::size_t person, figures::Posture posture) {
    const scene::Person& who = scene.people[person];
    const std::string word{keys::word_for(keys::posture, posture)};
    return {.what = who.name + ' ' + word,
            .values = {scene::set_words(scene::person_key(who.name, "posture"), word)}};
}

Change grow(const scene::Scene& scene, std::size_t person, double stature_m) {
    const scene::Person& who = scene.people[person];
    const double within =
        std::clamp(to_the_centimetre(stature_m), keys::stature_m.least, keys::stature_m.greatest);
    return {.what = who.name + ' ' + in_m(within) + " tall",
            .values = {person_number(who, "stature_m", within)}};
}

Change carry_camera(const scene::Scene& scene, double lens_to_mark_m, double across_m) {
    const scene::Camera& camera = scene.camera;
    const double distance_m = std::clamp(to_the_centimetre(lens_to_mark_m),
                                         keys::lens_to_mark_m.least, keys::lens_to_mark_m.greatest);
    const double sideways_m = to_the_centimetre(across_m);
    Change change{.what = "Camera " + in_m(distance_m) + " away", .values = {}};
    if (distance_m != camera.lens_to_mark_m)
        change.values.push_back(scene::set_number("camera.distance_m", distance_m));
    if (sideways_m != camera.across_m)
        change.values.push_back(scene::set_number("camera.across_m", sideways_m));
    return change;
}

Change raise_camera(double height_m) {
    const double within =
        std::clamp(to_the_centimetre(height_m), keys::height_m.least, keys::height_m.greatest);
    return {.what = "Camera at " + in_m(within),
            .values = {scene::set_number("camera.height_m", within)}};
}

Change stop_down(const scene::Scene& scene, int thirds) {
    const double f_number = along_ring(optics::marked_f_numbers(), scene.camera.f_number, thirds);
    return {.what = "f/" + scene::toml_number(f_number),
            .values = {scene::set_number("camera.f_number", f_number)}};
}

Change zoom(double focal_length_mm) {
    constexpr double whole_from_mm = 10;
    const double within =
        std::clamp(focal_length_mm, keys::focal_length_mm.least, keys::focal_length_mm.greatest);
    const double mm = within >= whole_from_mm ? std::round(within) : within;
    return {.what = scene::toml_number(mm) + " mm",
            .values = {scene::set_number("camera.focal_length_mm", mm)}};
}

Change focus_on(const scene::Scene& scene, std::size_t person) {
    const std::string& name = scene.people[person].name;
    return {.what = "Focus on " + name, .values = {scene::set_words("focus.on", name)}};
}

Change focus_evenly() {
    return {.what = "Focus evenly", .values = {"focus.balanced=true"}};
}

Change focus_at(double axial_m) {
    const double within = std::clamp(to_the_centimetre(axial_m), keys::focus_axial_m.least,
                                     keys::focus_axial_m.greatest);
    return {.what = "Focus at " + in_m(within),
            .values = {scene::set_number("focus.distance_m", within)}};
}

}  // namespace backrow::rehearsal
