#include "rehearsal/told/differences.h"

#include "rehearsal/hands/hand_words.h"
#include "rehearsal/told/place_differences.h"
#include "rehearsal/told/told.h"

#include "scene/camera_view.h"
#include "scene/words.h"
#include "stage/stage_change.h"

#include "optics/exposure/stops.h"

#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>
#include <utility>
#include <variant>

namespace backrow::rehearsal {
namespace {

struct FocusInWords {
    Units units;

    std::string operator()(const scene::FocusOnPerson& on) const { return "on " + on.name; }
    std::string operator()(const scene::FocusBalanced&) const { return "evenly"; }
    std::string operator()(const scene::FocusAtDistance& at) const {
        return "at " + length_words(at.axial_m, LengthScale::metres, units);
    }
    std::string operator()(const scene::FromMark& point) const { return "at " + place(point); }

    [[nodiscard]] std::string place(const scene::FromMark& point) const {
        const auto words = [&](double m) { return length_words(m, LengthScale::metres, units); };
        return fmt::format("{} across, {} up, {} back", words(point.across_m), words(point.up_m),
                           words(point.back_m));
    }
};

struct AimInWords {
    Units units;

    std::string operator()(const scene::AimAtGroup&) const { return "at the group"; }
    std::string operator()(const scene::AimAtPerson& at) const { return "at " + at.name; }
    std::string operator()(const scene::FromMark& point) const {
        return "at " + FocusInWords{units}.place(point);
    }
};

struct ViewingInWords {
    Units units;

    std::string operator()(const optics::PrintViewing& print) const {
        const auto is = [&](const optics::PrintViewing& usual) {
            return print.long_side_cm == usual.long_side_cm &&
                   print.distance_cm == usual.distance_cm;
        };
        if (is(optics::phone_viewing))
            return "on a phone";
        if (is(optics::album_viewing))
            return "in an album";
        if (is(optics::wall_viewing))
            return "on a wall";
        const auto words = [&](double cm) {
            return length_words(m_from_cm(cm), LengthScale::centimetres, units);
        };
        return words(print.long_side_cm) + " long from " + words(print.distance_cm);
    }
    std::string operator()(const scene::PixelViewing&) const { return "pixel by pixel"; }
};

std::string lens_in_words(const scene::Lens& lens) {
    return lens.profile ? fmt::format("lens {}", lens.profile_file) : "perfect lens";
}

std::string opening_in_words(const scene::Lens& lens) {
    return lens.blades == 0 ? "round opening" : fmt::format("{} blades", lens.blades);
}

std::string exposure_in_words(scene::ShownExposure exposure) {
    return exposure == scene::ShownExposure::metered ? "as metered" : "as set";
}

void tell_camera(const scene::Scene& a, const scene::Scene& b, Told& told) {
    const scene::Camera& before = a.camera;
    const scene::Camera& after = b.camera;
    const Units units = told.units();
    told.words("", "f/" + plain(before.f_number), "f/" + plain(after.f_number));
    told.words("", plain(before.focal_length_mm) + " mm", plain(after.focal_length_mm) + " mm");
    told.words("focus ", focus_words(a.focus, units), focus_words(b.focus, units));
    if (!same_cm(before.lens_to_mark_m, after.lens_to_mark_m))
        told.words("camera ", in_m(before.lens_to_mark_m, units),
                   in_m(after.lens_to_mark_m, units) + " away");
    if (!same_cm(before.height_m, after.height_m))
        told.words("camera at ", in_m(before.height_m, units), in_m(after.height_m, units));
    if (const std::string step = step_words(after.across_m - before.across_m, 0, units);
        !step.empty())
        told.add("camera " + step);
    told.words("aimed ", std::visit(AimInWords{units}, before.aim),
               std::visit(AimInWords{units}, after.aim));
    told.words("camera ", before.level ? "level" : "tilted", after.level ? "level" : "tilted");
    told.words("", std::string{scene::word_for(scene::words::orientation, before.orientation)},
               std::string{scene::word_for(scene::words::orientation, after.orientation)});
    told.words("", optics::shutter_words(before.shutter_s), optics::shutter_words(after.shutter_s));
    told.words("ISO ", plain(before.iso), plain(after.iso));
    told.words("grey filter of ", optics::stops_words(before.filter_stops),
               optics::stops_words(after.filter_stops));
    told.words("sensor ", fmt::format("{:g} × {:g} mm", before.sensor_mm[0], before.sensor_mm[1]),
               fmt::format("{:g} × {:g} mm", after.sensor_mm[0], after.sensor_mm[1]));
    told.words("", fmt::format("{} × {} pixels", before.pixels[0], before.pixels[1]),
               fmt::format("{} × {} pixels", after.pixels[0], after.pixels[1]));
    told.words("shown ", exposure_in_words(before.exposure), exposure_in_words(after.exposure));
    told.words("", lens_in_words(a.lens), lens_in_words(b.lens));
    told.words("", opening_in_words(a.lens), opening_in_words(b.lens));
    told.words("seen ", viewing_words(a.viewing, units), viewing_words(b.viewing, units));
    told.words("judged by ", std::string{scene::word_for(scene::words::judge, a.judge)},
               std::string{scene::word_for(scene::words::judge, b.judge)});
}

void tell_person(const scene::Person& before, const scene::Person& after, Told& told) {
    const std::string& name = after.name;
    if (!same_cm(before.place.up_m, after.place.up_m))
        told.add(fmt::format("{} {} {}", name,
                             in_cm(std::abs(after.place.up_m - before.place.up_m), told.units()),
                             after.place.up_m > before.place.up_m ? "higher" : "lower"));
    told.words(name + " turned ", degrees(before.pose.turn_deg), degrees(after.pose.turn_deg));
    told.words(name + "'s head turned ", degrees(before.pose.head_turn_deg),
               degrees(after.pose.head_turn_deg));
    if (!same_cm(before.pose.lean_m, after.pose.lean_m))
        told.add(fmt::format("{} leans {}", name,
                             same_cm(after.pose.lean_m, 0)
                                 ? "no more"
                                 : step_words(0, after.pose.lean_m, told.units())));
    told.words(name + ' ', std::string{scene::word_for(scene::words::posture, before.pose.posture)},
               std::string{scene::word_for(scene::words::posture, after.pose.posture)});
    if (!same_cm(before.measures.stature_m, after.measures.stature_m))
        told.words(name + ' ', in_m(before.measures.stature_m, told.units()),
                   in_m(after.measures.stature_m, told.units()) + " tall");
}

void tell_people(const scene::Scene& before, const scene::Scene& after, Told& told) {
    std::map<std::string_view, const scene::Person*> known;
    for (const scene::Person& person : before.people)
        known[person.name] = &person;
    std::vector<std::string> new_names;
    std::vector<std::pair<std::string, std::vector<std::string>>> steps;
    Told changes{told.units()};
    for (const scene::Person& person : after.people) {
        const auto found = known.find(person.name);
        if (found == known.end()) {
            new_names.push_back(person.name);
            continue;
        }
        const scene::Person& was = *found->second;
        known.erase(found);
        tell_person(was, person, changes);
        std::string step = step_words(person.place.across_m - was.place.across_m,
                                      person.place.back_m - was.place.back_m, told.units());
        if (step.empty())
            continue;
        auto same = std::ranges::find(steps, step, &decltype(steps)::value_type::first);
        if (same == steps.end())
            same = steps.emplace(same, std::move(step), std::vector<std::string>{});
        same->second.push_back(person.name);
    }
    std::vector<std::string> gone;
    for (const scene::Person& person : before.people)
        if (known.contains(person.name))
            gone.push_back(person.name);
    if (!new_names.empty())
        told.add(who_words(new_names) + " new");
    if (!gone.empty())
        told.add("without " + who_words(gone));
    for (const auto& [step, names] : steps)
        told.add(fmt::format("{} {}", who_words(names), step));
    for (std::string& line : changes.take())
        told.add(std::move(line));
}

/// What differences() does not tell of a person. Not compared: what follows from where the others
/// are (settle.h).
bool same_otherwise(const scene::Person& one, const scene::Person& other) {
    return one.name == other.name && one.styling == other.styling && one.gaze == other.gaze &&
           one.speed_mps == other.speed_mps && one.heading_deg == other.heading_deg &&
           one.row == other.row && one.carrier == other.carrier &&
           one.pose.lean_sideways_m == other.pose.lean_sideways_m &&
           one.pose.arms == other.pose.arms && one.pose.expression == other.pose.expression &&
           one.pose.posture == other.pose.posture && one.measures.sex == other.measures.sex &&
           one.measures.age_years == other.measures.age_years;
}

}  // namespace

bool same_scene(const scene::Scene& one, const scene::Scene& other) {
    return differences(one, other, Units::metric).empty() && stage::same_surroundings(one, other) &&
           one.odds == other.odds && std::ranges::equal(one.people, other.people, same_otherwise);
}

std::string focus_words(const scene::Focus& focus, Units units) {
    return std::visit(FocusInWords{units}, focus);
}

std::string viewing_words(const scene::Viewing& viewing, Units units) {
    return std::visit(ViewingInWords{units}, viewing);
}

std::vector<std::string> differences(const scene::Scene& before, const scene::Scene& after,
                                     Units units) {
    Told told{units};
    tell_camera(before, after, told);
    tell_people(before, after, told);
    tell_place(before, after, told);
    tell_light(before.light, after.light, told);
    return told.take();
}

}  // namespace backrow::rehearsal
