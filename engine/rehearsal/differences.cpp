#include "rehearsal/differences.h"

#include "rehearsal/hand_words.h"

#include "scene/camera_view.h"
#include "scene/scene_keys.h"

#include "optics/stops.h"

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

namespace keys = scene::keys;

std::string from_to(std::string_view before, std::string_view after) {
    return fmt::format("{} → {}", before, after);
}

bool same_cm(double a_m, double b_m) {
    return std::lround(cm_from_m(a_m)) == std::lround(cm_from_m(b_m));
}

struct FocusInWords {
    std::string operator()(const scene::FocusOnPerson& on) const { return "on " + on.name; }
    std::string operator()(const scene::FocusBalanced&) const { return "evenly"; }
    std::string operator()(const scene::FocusAtDistance& at) const {
        return fmt::format("at {:.2f} m", at.axial_m);
    }
    std::string operator()(const scene::FromMark& point) const { return "at " + place(point); }

    static std::string place(const scene::FromMark& point) {
        return fmt::format("{:.2f} m across, {:.2f} m up, {:.2f} m back", point.across_m,
                           point.up_m, point.back_m);
    }
};

struct AimInWords {
    std::string operator()(const scene::AimAtGroup&) const { return "at the group"; }
    std::string operator()(const scene::AimAtPerson& at) const { return "at " + at.name; }
    std::string operator()(const scene::FromMark& point) const {
        return "at " + FocusInWords::place(point);
    }
};

struct ViewingInWords {
    std::string operator()(const optics::PrintViewing& print) const {
        return fmt::format("{:.4g} cm seen from {:.4g} cm", print.long_side_cm, print.distance_cm);
    }
    std::string operator()(const scene::PixelViewing&) const { return "single pixels"; }
};

std::string lens_in_words(const scene::Lens& lens) {
    if (!lens.profile)
        return lens.blades == 0 ? "a perfect lens"
                                : fmt::format("a perfect lens of {} blades", lens.blades);
    return fmt::format("a lens of {:.3g} dpt and {:.3g} dpt, {} blades",
                       lens.profile->spherical_dpt, lens.profile->field_curvature_dpt, lens.blades);
}

/// Takes what differs.
class Told {
public:
    void words(std::string_view what, const std::string& before, const std::string& after) {
        if (before != after)
            lines_.push_back(fmt::format("{}{}", what, from_to(before, after)));
    }
    void add(std::string line) { lines_.push_back(std::move(line)); }

    std::vector<std::string> take() { return std::move(lines_); }

private:
    std::vector<std::string> lines_;
};

void tell_camera(const scene::Scene& a, const scene::Scene& b, Told& told) {
    const scene::Camera& before = a.camera;
    const scene::Camera& after = b.camera;
    told.words("f/", plain(before.f_number), plain(after.f_number));
    told.words("", plain(before.focal_length_mm) + " mm", plain(after.focal_length_mm) + " mm");
    told.words("focus ", focus_words(a.focus), focus_words(b.focus));
    if (!same_cm(before.lens_to_mark_m, after.lens_to_mark_m))
        told.words("camera ", in_m(before.lens_to_mark_m), in_m(after.lens_to_mark_m) + " away");
    if (!same_cm(before.height_m, after.height_m))
        told.words("camera at ", in_m(before.height_m), in_m(after.height_m));
    if (const std::string step = step_words(after.across_m - before.across_m, 0); !step.empty())
        told.add("camera " + step);
    told.words("aimed ", std::visit(AimInWords{}, before.aim), std::visit(AimInWords{}, after.aim));
    told.words("camera ", before.level ? "level" : "tilted", after.level ? "level" : "tilted");
    told.words("", std::string{keys::word_for(keys::orientation, before.orientation)},
               std::string{keys::word_for(keys::orientation, after.orientation)});
    told.words("", optics::shutter_words(before.shutter_s), optics::shutter_words(after.shutter_s));
    told.words("ISO ", plain(before.iso), plain(after.iso));
    told.words("sensor ", fmt::format("{:g} × {:g} mm", before.sensor_mm[0], before.sensor_mm[1]),
               fmt::format("{:g} × {:g} mm", after.sensor_mm[0], after.sensor_mm[1]));
    told.words("", fmt::format("{} × {} pixels", before.pixels[0], before.pixels[1]),
               fmt::format("{} × {} pixels", after.pixels[0], after.pixels[1]));
    told.words("shown ", std::string{keys::word_for(keys::exposure, before.exposure)},
               std::string{keys::word_for(keys::exposure, after.exposure)});
    told.words("", lens_in_words(a.lens), lens_in_words(b.lens));
    told.words("seen as ", std::visit(ViewingInWords{}, a.viewing),
               std::visit(ViewingInWords{}, b.viewing));
}

std::string degrees(double deg) {
    return fmt::format("{}°", std::lround(deg));
}

void tell_person(const scene::Person& before, const scene::Person& after, Told& told) {
    const std::string& name = after.name;
    if (!same_cm(before.place.up_m, after.place.up_m))
        told.add(fmt::format("{} {} {}", name,
                             in_cm(std::abs(after.place.up_m - before.place.up_m)),
                             after.place.up_m > before.place.up_m ? "higher" : "lower"));
    told.words(name + " turned ", degrees(before.pose.turn_deg), degrees(after.pose.turn_deg));
    told.words(name + "'s head turned ", degrees(before.pose.head_turn_deg),
               degrees(after.pose.head_turn_deg));
    if (!same_cm(before.pose.lean_m, after.pose.lean_m))
        told.add(fmt::format("{} leans {}", name,
                             same_cm(after.pose.lean_m, 0) ? "no more"
                                                           : step_words(0, after.pose.lean_m)));
    told.words(name + ' ', std::string{keys::word_for(keys::posture, before.pose.posture)},
               std::string{keys::word_for(keys::posture, after.pose.posture)});
    if (!same_cm(before.measures.stature_m, after.measures.stature_m))
        told.words(name + ' ', in_m(before.measures.stature_m),
                   in_m(after.measures.stature_m) + " tall");
}

void tell_people(const scene::Scene& before, const scene::Scene& after, Told& told) {
    std::map<std::string_view, const scene::Person*> known;
    for (const scene::Person& person : before.people)
        known[person.name] = &person;
    std::vector<std::string> new_names;
    std::vector<std::pair<std::string, std::vector<std::string>>> steps;
    Told changes;
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
                                      person.place.back_m - was.place.back_m);
        if (step.empty())
            continue;
        auto same = std::ranges::find(steps, step, &decltype(steps)::value_type::first);
        if (same == steps.end())
            same = steps.insert(same, {std::move(step), {}});
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

}  // namespace

std::string focus_words(const scene::Focus& focus) {
    return std::visit(FocusInWords{}, focus);
}

std::vector<std::string> differences(const scene::Scene& before, const scene::Scene& after) {
    Told told;
    tell_camera(before, after, told);
    tell_people(before, after, told);
    return told.take();
}

}  // namespace backrow::rehearsal
