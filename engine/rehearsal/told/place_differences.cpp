#include "rehearsal/told/place_differences.h"

#include "rehearsal/hands/hand_words.h"
#include "rehearsal/hands/light_handling.h"
#include "rehearsal/hands/place_handling.h"

#include "scene/words.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace backrow::rehearsal {
namespace {

std::string kind_of_backdrop(const setting::Backdrop& backdrop) {
    return std::string{scene::word_for(scene::words::backdrop_kind, backdrop.kind)};
}

std::string name_of_model(const scene::Model& model) {
    return short_name(model.file);
}

void tell_thing(const setting::Backdrop& before, const setting::Backdrop& after, Told& told) {
    const std::string kind = kind_of_backdrop(after);
    told.words("", kind_of_backdrop(before), kind);
    told.words(kind + " of ", std::string{scene::word_for(scene::words::finish, before.finish)},
               std::string{scene::word_for(scene::words::finish, after.finish)});
    const auto length = [&](double m) { return in_m(m, told.units()); };
    if (!same_cm(before.back_m, after.back_m))
        told.words(kind + ' ', length(before.back_m) + " behind", length(after.back_m));
    const setting::Photograph& was = before.photograph;
    const setting::Photograph& is = after.photograph;
    told.words("photo of ", short_name(was.file), short_name(is.file));
    if (!same_cm(was.width_m, is.width_m))
        told.words("photo ", length(was.width_m), length(is.width_m) + " wide");
    if (!same_cm(was.up_m, is.up_m))
        told.add(fmt::format("photo {} {}", in_cm(std::abs(is.up_m - was.up_m), told.units()),
                             is.up_m > was.up_m ? "higher" : "lower"));
    if (const std::string step = step_words(is.across_m - was.across_m, 0, told.units());
        !step.empty())
        told.add("photo " + step);
    told.words("lamps of the photo × ", plain(was.highlight_gain), plain(is.highlight_gain));
}

void tell_thing(const scene::Model& before, const scene::Model& after, Told& told) {
    const std::string name = name_of_model(after);
    told.words("", name_of_model(before), name);
    if (const std::string step = step_words(after.place.across_m - before.place.across_m,
                                            after.place.back_m - before.place.back_m, told.units());
        !step.empty())
        told.add(name + ' ' + step);
    if (!same_cm(before.place.up_m, after.place.up_m))
        told.add(fmt::format("{} {} {}", name,
                             in_cm(std::abs(after.place.up_m - before.place.up_m), told.units()),
                             after.place.up_m > before.place.up_m ? "higher" : "lower"));
    told.words(name + " turned ", degrees(before.turn_deg), degrees(after.turn_deg));
    told.words(name + " × ", plain(before.scale), plain(after.scale));
}

/// Those of one list that are not in the other. Where a file names them does not count.
template <class Thing>
std::vector<Thing> without(std::vector<Thing> things, const std::vector<Thing>& others) {
    const auto is_told_same = [](const Thing& one, const Thing& other) {
        Told told{Units::metric};
        tell_thing(one, other, told);
        return told.take().empty();
    };
    for (const Thing& other : others)
        if (const auto same = std::ranges::find_if(
                things, [&](const Thing& thing) { return is_told_same(thing, other); });
            same != things.end())
            things.erase(same);
    return things;
}

/// One by one where there are as many as before; else who came and who went.
template <class Thing, class Name>
void tell_things(const std::vector<Thing>& before, const std::vector<Thing>& after, Name name,
                 Told& told) {
    if (before.size() == after.size()) {
        for (std::size_t i = 0; i < before.size(); ++i)
            tell_thing(before[i], after[i], told);
        return;
    }
    for (const Thing& thing : without(after, before))
        told.add(name(thing) + " new");
    for (const Thing& thing : without(before, after))
        told.add("without the " + name(thing));
}

/// "30° further round" the group, the way from picture right behind it to the left.
std::string round_words(double before_deg, double after_deg) {
    const double way_deg = std::remainder(after_deg - before_deg, 360);
    if (std::lround(way_deg) == 0)
        return {};
    return degrees(std::abs(way_deg)) + (way_deg > 0 ? " further round" : " back round");
}

std::string brightness_words(double ev100) {
    return fmt::format("{}, EV {}", weather_at(ev100).words, plain(ev100));
}

void tell_window(const scene::WindowPlace& before, const scene::WindowPlace& after, Told& told) {
    if (const std::string round = round_words(before.azimuth_deg, after.azimuth_deg);
        !round.empty())
        told.add("window " + round);
    struct Length {
        double before_m, after_m;
        const char* which;
    };
    for (const auto& [before_m, after_m, which] :
         {Length{before.distance_m, after.distance_m, " away"},
          Length{before.width_m, after.width_m, " wide"},
          Length{before.height_m, after.height_m, " high"},
          Length{before.sill_m, after.sill_m, " up"}})
        if (!same_cm(before_m, after_m))
            told.words("window ", in_m(before_m, told.units()),
                       in_m(after_m, told.units()) + which);
}

}  // namespace

void tell_place(const scene::Scene& before, const scene::Scene& after, Told& told) {
    told.words("ground ", std::string{scene::word_for(scene::words::ground, before.setting.ground)},
               std::string{scene::word_for(scene::words::ground, after.setting.ground)});
    tell_things(before.setting.backdrops, after.setting.backdrops, kind_of_backdrop, told);
    tell_things(before.models, after.models, name_of_model, told);
    const auto sky = [](const scene::Setting& setting) {
        return setting.panorama.empty() ? std::string{"sky"} : short_name(setting.panorama);
    };
    told.words("above: ", sky(before.setting), sky(after.setting));
    told.words("panorama turned ", degrees(before.setting.panorama_turn_deg),
               degrees(after.setting.panorama_turn_deg));
}

void tell_light(const scene::Light& before, const scene::Light& after, Told& told) {
    const auto kind = [](const scene::Light& light) {
        return std::string{light.kind == scene::LightKind::open ? "open sky" : "window"};
    };
    told.words("", kind(before), kind(after));
    std::string sun = round_words(before.sun_azimuth_deg, after.sun_azimuth_deg);
    if (degrees(before.sun_elevation_deg) != degrees(after.sun_elevation_deg))
        sun += fmt::format("{}{} high", sun.empty() ? "" : ", ", degrees(after.sun_elevation_deg));
    if (!sun.empty())
        told.add("sun " + sun);
    tell_window(before.window, after.window, told);
    told.words("", brightness_words(before.scene_ev100), brightness_words(after.scene_ev100));
}

}  // namespace backrow::rehearsal
