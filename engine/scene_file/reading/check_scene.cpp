// What only shows when the whole scene has been read.

#include "scene_file/reading/scene_draft.h"

#include "scene/camera_view.h"
#include "scene/clearance.h"
#include "scene_file/toml/near_miss.h"

#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::scene_file {
namespace {

// An aim this close to the lens, seen from above, gives no direction to point the camera in.
constexpr double least_aim_m = 0.001;

/// Words that may stand in a name's place are no people: they are told apart from them.
void require_person(const std::string& name, const Place& where,
                    const std::vector<std::string_view>& people, Findings& findings,
                    const std::vector<std::string_view>& words = {}) {
    std::vector<std::string_view> known = people;
    known.insert(known.end(), words.begin(), words.end());
    if (std::ranges::find(known, name) != known.end())
        return;
    std::string mend = suggestion(name, known, "");
    if (nearest_word(name, known).empty()) {
        mend = suggestion(name, people, "in the picture are");
        for (const std::string_view& word : words)
            mend += fmt::format("{} \"{}\"", &word == &words.front() ? "; or write" : " or", word);
    }
    findings.add(where, fmt::format("nobody in the picture is called `{}`", shortened(name)),
                 std::move(mend));
}

bool has_direction(const scene::Scene& scene) {
    const glm::dvec3 to_aim = aim_point_m(scene) - lens_position_m(scene.camera);
    return std::hypot(to_aim.x, to_aim.z) > least_aim_m;
}

void check_people_before_camera(const scene::Scene& scene, const scene::CameraView& view,
                                const ScenePlaces& places, Findings& findings) {
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const scene::Person& person = scene.people[i];
        const double nearest_m = nearest_part_m(view, solids(person));
        if (nearest_m >= scene::nearest_person_m)
            continue;
        const std::string what =
            nearest_m < 0
                ? fmt::format("`{}` stands behind the lens or beside it", person.name)
                : fmt::format("`{}` comes within {:.2f} m of the lens", person.name, nearest_m);
        findings.add(places.people[i], what,
                     fmt::format("keep everybody at least {} m in front of the camera; move the "
                                 "person back or raise camera.distance_m",
                                 scene::nearest_person_m));
    }
}

/// A lens has no openings but those between its ends, and its errors are told for these alone.
void check_opening(const scene::Scene& scene, const Place& where, Findings& findings) {
    if (!scene.lens.profile)
        return;
    const double widest = scene.lens.profile->widest_f_number;
    const double narrowest = optics::narrowest_f_number(*scene.lens.profile);
    const double f_number = scene.camera.f_number;
    if (f_number >= widest && f_number <= narrowest)
        return;
    findings.add(where,
                 fmt::format("the lens does not {} f/{:g}: its profile {} f/{:g}",
                             f_number < widest ? "open to" : "close to", f_number,
                             f_number < widest ? "begins at" : "ends at",
                             f_number < widest ? widest : narrowest),
                 fmt::format("set camera.f_number to {:g}, or take another lens.profile",
                             f_number < widest ? widest : narrowest));
}

void check_focus(const scene::CameraView& view, const Place& where, Findings& findings) {
    if (view.lens.focus_m <= 0)
        findings.add(where, "the focus lies behind the camera",
                     "focus on something in front of the lens");
    else if (mm_from_m(view.lens.focus_m) <= view.lens.focal_length_mm)
        findings.add(where,
                     fmt::format("focus at {:.4g} m lies inside the {:.4g} mm focal length",
                                 view.lens.focus_m, view.lens.focal_length_mm),
                     fmt::format("focus farther than {:.4g} m from the lens",
                                 m_from_mm(view.lens.focal_length_mm)));
}

}  // namespace

void resolve_names(const SceneDraft& draft, Findings& findings) {
    const scene::Scene& scene = draft.scene;
    if (scene.people.empty()) {
        // Rows that failed have been complained of; an empty file has not.
        if (findings.empty())
            findings.add(findings.start_of_file(), "nobody is in the picture",
                         "add a [[row]] with people = [\"…\"], or a [[person]]");
        return;
    }
    const std::vector<std::string_view> known = names_of(scene.people);
    const auto* on = std::get_if<scene::FocusOnPerson>(&scene.focus);
    if (on != nullptr && draft.focus_name) {
        if (on->name == "group" && std::ranges::find(known, on->name) == known.end())
            findings.add(*draft.focus_name, "a group is not a person to focus on",
                         "write balanced = true in place of on, or a person's name");
        else
            require_person(on->name, *draft.focus_name, known, findings);
    }
    for (const scene::Person& person : scene.people)
        if (const auto* gaze = std::get_if<scene::GazeAtPerson>(&person.gaze)) {
            if (gaze->name == person.name)
                findings.add(gaze->named_at,
                             fmt::format("`{}` cannot look at themselves", person.name),
                             "write \"camera\", \"ahead\", somebody else, or [across, up, back]");
            else
                require_person(gaze->name, gaze->named_at, known, findings, {"camera", "ahead"});
        }
    for (const StaysBeside& beside : draft.beside) {
        const scene::Person& person = scene.people[beside.person];
        const std::string& other = person.company.with[beside.which];
        if (other == person.name)
            findings.add(beside.at, fmt::format("`{}` cannot stay beside themselves", other),
                         "name somebody else, or leave it out");
        else
            require_person(other, beside.at, known, findings);
    }
    const auto* at = std::get_if<scene::AimAtPerson>(&scene.camera.aim);
    if (at != nullptr && draft.aim_name)
        require_person(at->name, *draft.aim_name, known, findings, {"group"});
}

void check_geometry(const scene::Scene& scene, const ScenePlaces& places, Findings& findings) {
    check_opening(scene, places.f_number, findings);
    if (!has_direction(scene)) {
        findings.add(places.aim, "the camera would look straight up or down, or at itself",
                     "aim at a point in front of the lens");
        return;
    }
    const scene::CameraView view = camera_view(scene);
    check_people_before_camera(scene, view, places, findings);
    // A focus that follows somebody who stands behind the camera is not a second mistake.
    const bool follows_people = std::holds_alternative<scene::FocusOnPerson>(scene.focus) ||
                                std::holds_alternative<scene::FocusBalanced>(scene.focus);
    if (findings.empty() || !follows_people)
        check_focus(view, places.focus, findings);
}

}  // namespace backrow::scene_file
