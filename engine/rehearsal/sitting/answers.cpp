#include "rehearsal/sitting/answers.h"

#include "rehearsal/hands/hand_words.h"
#include "rehearsal/told/differences.h"

#include "plan/comparing/background.h"
#include "scene/set_words.h"

#include "optics/exposure/stops.h"

#include "base/units.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <variant>

namespace backrow::rehearsal {
namespace {

/// The scene at the exposure of another. What is paid with, shutter and ISO, moves nobody out of
/// focus: a photographer who stops down sets them next.
scene::Scene exposed_as(scene::Scene now, const scene::Scene& asked) {
    now.camera.shutter_s = asked.camera.shutter_s;
    now.camera.iso = asked.camera.iso;
    now.camera.filter_stops = asked.camera.filter_stops;
    now.camera.exposure = asked.camera.exposure;
    return now;
}

/// The scene that was asked about with what advice changes taken from another.
scene::Scene with_advised(scene::Scene asked, const scene::Scene& advised) {
    asked.camera.f_number = advised.camera.f_number;
    asked.camera.lens_to_mark_m = advised.camera.lens_to_mark_m;
    asked.camera.focal_length_mm = advised.camera.focal_length_mm;
    asked.lens = advised.lens;
    asked.focus = advised.focus;
    for (std::size_t i = 0; i < asked.people.size(); ++i) {
        asked.people[i].own.back_m = advised.people[i].own.back_m;
        asked.people[i].place.back_m = advised.people[i].place.back_m;
    }
    return asked;
}

/// What advice changes, set to what it is in another scene.
Change back_to(const scene::Scene& asked, const scene::Scene& now) {
    Change change{.what = "Take the advice back", .values = {}};
    const auto set = [&](std::string_view key, double before, double present) {
        if (before != present)
            change.values.push_back(scene::set_number(key, before));
    };
    set("camera.f_number", asked.camera.f_number, now.camera.f_number);
    set("camera.shutter_s", asked.camera.shutter_s, now.camera.shutter_s);
    set("camera.iso", asked.camera.iso, now.camera.iso);
    set("camera.filter_stops", asked.camera.filter_stops, now.camera.filter_stops);
    set("camera.distance_m", asked.camera.lens_to_mark_m, now.camera.lens_to_mark_m);
    set("camera.focal_length_mm", asked.camera.focal_length_mm, now.camera.focal_length_mm);
    if (asked.lens.profile != now.lens.profile)
        change.values.push_back(scene::set_words("lens.profile", asked.lens.profile_file));
    if (focus_words(asked.focus, Units::metric) != focus_words(now.focus, Units::metric))
        change.values.push_back(value_of_focus(asked.focus));
    for (std::size_t i = 0; i < asked.people.size(); ++i)
        set(scene::person_key(asked.people[i].name, "back_m"), asked.people[i].own.back_m,
            now.people[i].own.back_m);
    return change;
}

std::string moves_words(const std::vector<plan::Move>& moves, Units units) {
    constexpr std::size_t most_by_name = 2;
    if (moves.empty())
        return "nobody moves";
    if (moves.size() > most_by_name)
        return fmt::format("{} people move", moves.size());
    std::vector<std::string> words;
    for (const plan::Move& move : moves)
        words.push_back(move.name + ' ' + step_words(0, m_from_cm(move.back_cm), units));
    return fmt::format("{}", fmt::join(words, ", "));
}

std::string answer_words(const scene::Scene& asked, const plan::Answer& answer, Units units) {
    const scene::Camera& camera = answer.scene.camera;
    std::vector<std::string> parts;
    if (camera.focal_length_mm != asked.camera.focal_length_mm)
        parts.push_back(plain(camera.focal_length_mm) + " mm");
    parts.push_back("f/" + plain(camera.f_number));
    if (camera.lens_to_mark_m != asked.camera.lens_to_mark_m)
        parts.push_back("from " + in_m(camera.lens_to_mark_m, units));
    parts.push_back("focus " + focus_words(answer.scene.focus, units));
    parts.push_back(moves_words(answer.moves, units));
    return fmt::format("{}", fmt::join(parts, ", "));
}

std::string cost_words(const ThingToTry& thing) {
    const std::string stops = optics::stops_words(std::abs(thing.stops_lost));
    const std::string light = stops == optics::stops_words(0)
                                  ? "no light lost"
                                  : stops + (thing.stops_lost > 0 ? " lost" : " gained");
    return fmt::format("{}, background {:.1f} → {:.1f} % of the picture's height", light,
                       thing.background_before_percent, thing.background_after_percent);
}

ThingToTry thing_to_try(const scene::Scene& asked, const scene::Scene& now,
                        const plan::Answer& answer, double background_before_percent, Units units) {
    ThingToTry thing{.what = answer_words(asked, answer, units),
                     .costs = {},
                     .change = {},
                     .is_now =
                         same_scene(with_advised(asked, answer.scene), exposed_as(now, asked)),
                     .stops_lost = answer.stops_lost,
                     .background_before_percent = background_before_percent,
                     .background_after_percent = answer.background.percent_of_height,
                     .worst_grade = answer.table.faces[answer.worst].grade,
                     .cautions = answer.cautions};
    thing.costs = cost_words(thing);
    if (!thing.is_now)
        thing.change = {.what = "Try " + thing.what, .values = plan::values_for(now, answer)};
    return thing;
}

}  // namespace

std::optional<Answers> answers(const scene::Scene& asked, const scene::Scene& now,
                               const plan::Advice& advice, Units units) {
    if (asked.people.size() != now.people.size())
        return std::nullopt;
    Answers answers{.things = {}, .is_possible = !advice.answers.empty(), .take_back = {}};
    const double background_percent = plan::background(asked, camera_view(asked)).percent_of_height;
    for (const plan::Answer& answer : advice.answers)
        answers.things.push_back(thing_to_try(asked, now, answer, background_percent, units));
    if (advice.nearest)
        answers.things.push_back(
            thing_to_try(asked, now, *advice.nearest, background_percent, units));
    if (same_scene(asked, exposed_as(now, asked)))
        return answers;
    if (std::ranges::none_of(answers.things, &ThingToTry::is_now))
        return std::nullopt;
    answers.take_back = back_to(asked, now);
    return answers;
}

}  // namespace backrow::rehearsal
