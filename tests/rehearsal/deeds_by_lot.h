#pragma once

// Anything that hands do to a scene without a pointer, by lot: sensible and not.

#include "rehearsal/hands/group_handling.h"
#include "rehearsal/hands/handling.h"
#include "rehearsal/hands/light_handling.h"
#include "rehearsal/hands/looks.h"
#include "rehearsal/hands/people_handling.h"
#include "rehearsal/hands/place_handling.h"
#include "rehearsal/hands/row_handling.h"
#include "rehearsal/hands/wheel.h"

#include "arranging/rearrange.h"
#include "scene/camera_view.h"
#include "scene/scene.h"
#include "scene/set_people.h"

#include "../base/lot.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace backrow::rehearsal {

/// A scene under a hand that draws lots.
struct Hand {
    const scene::Scene& scene;
    Lot& lot;

    [[nodiscard]] std::size_t anybody() const { return lot.below(scene.people.size()); }
    /// One or more, each once.
    [[nodiscard]] std::vector<std::size_t> some() const {
        const double share = lot.between(0, 1);
        const std::size_t surely = anybody();
        std::vector<std::size_t> people;
        for (std::size_t i = 0; i < scene.people.size(); ++i)
            if (i == surely || lot.in(share * share))
                people.push_back(i);
        return people;
    }
    [[nodiscard]] std::optional<std::size_t> perhaps_somebody() const {
        return lot.in(0.8) ? std::optional{anybody()} : std::nullopt;
    }
    [[nodiscard]] int row() const {
        const int rows = scene::row_count(scene);
        return rows == 0 ? 0 : static_cast<int>(lot.below(static_cast<std::size_t>(rows)));
    }
    /// Now and then one that is not there.
    [[nodiscard]] std::size_t backdrop() const {
        return lot.below(scene.setting.backdrops.size() + 1);
    }
    [[nodiscard]] std::size_t model() const { return lot.below(scene.models.size() + 1); }
    [[nodiscard]] std::string_view name() const {
        static const std::string long_name(300, 'y');
        static const std::array<std::string_view, 17> names{
            "Ana",   "J. B.",    "a=b",    "Ægir \"the tall\"", "camera",  "",   "group",
            "a.b=c", "[x]",      "# no",   "back\\slash",       "Zoë\nBo", "李", "'quoted'",
            "\x01",  "\xff\xfe", long_name};
        return lot.in(0.5) ? lot.one_of(names) : std::string_view{scene.people[anybody()].name};
    }
};

using Deed = Change (*)(const Hand&);

/// To people.
inline const std::vector<Deed>& deeds_to_people() {
    static const std::vector<Deed> deeds{
        [](const Hand& h) {
            return lead(h.scene, h.anybody(), h.lot.between(-3, 3), h.lot.between(-1, 3),
                        h.lot.in(0.5));
        },
        [](const Hand& h) {
            return step(h.scene, h.anybody(), h.lot.between(-0.5, 0.5), h.lot.between(-0.5, 0.5));
        },
        [](const Hand& h) {
            return step(h.scene, h.some(), h.lot.between(-0.5, 0.5), h.lot.between(-0.5, 0.5));
        },
        [](const Hand& h) { return turn(h.scene, h.anybody(), h.lot.between(-400, 400)); },
        [](const Hand& h) {
            return turn_towards(h.scene, h.anybody(), h.lot.between(-3, 3), h.lot.between(-9, 3));
        },
        [](const Hand& h) { return lean(h.scene, h.anybody(), h.lot.between(-1, 1)); },
        [](const Hand& h) {
            return take_posture(h.scene, h.anybody(),
                                static_cast<figures::Posture>(h.lot.below(7)));
        },
        [](const Hand& h) { return grow(h.scene, h.anybody(), h.lot.between(0, 3)); },
        [](const Hand& h) { return grow_to_age(h.scene, h.anybody(), h.lot.between(-5, 120)); },
        [](const Hand& h) { return line_up(h.scene, scene::camera_view(h.scene), h.some()); },
        [](const Hand& h) {
            const std::size_t one = h.anybody(), other = h.anybody();
            return one == other ? Change{} : change_places(h.scene, one, other);
        },
        [](const Hand& h) { return space_row(h.row(), h.lot.between(-0.2, 2)); },
        [](const Hand& h) { return raise_row(h.row(), h.lot.between(-1, 3)); },
        [](const Hand& h) {
            const int row = static_cast<int>(
                h.lot.below(static_cast<std::size_t>(scene::row_count(h.scene)) + 1));
            const std::size_t who = h.anybody();
            return stand_in_row(h.scene, who, row,
                                position_in_row(h.scene, row, who, h.lot.between(-3, 3)));
        },
        [](const Hand& h) { return leave_row(h.scene, h.anybody()); },
        [](const Hand& h) { return add_person(h.scene, h.perhaps_somebody()).change; },
        [](const Hand& h) { return add_another_like(h.scene, h.anybody()).change; },
        [](const Hand& h) { return remove_people(h.scene, h.some()); },
        [](const Hand& h) { return remove_people(h.scene, std::array{h.anybody()}); },
        [](const Hand& h) { return rename(h.scene, h.anybody(), h.name()); },
        [](const Hand& h) { return carry(h.scene, h.anybody(), h.perhaps_somebody()); },
        [](const Hand& h) {
            const std::array<std::string_view, 2> words{"camera", "ahead"};
            return look_at(h.scene, h.some(), h.lot.in(0.3) ? h.lot.one_of(words) : h.name());
        },
        [](const Hand& h) {
            const Look& look = looks()[h.lot.below(looks().size())];
            return choose_look(h.scene, h.some(), look, h.lot.one_of(look.words));
        },
        [](const Hand& h) {
            return Change{"Arrange again", h.lot.in(0.5)
                                               ? arranging::rearrange(h.scene).values
                                               : arranging::rearrange(h.scene, h.row()).values};
        },
    };
    return deeds;
}

/// To camera, place and light.
inline const std::vector<Deed>& deeds_to_the_rest() {
    static const std::vector<Deed> deeds{
        [](const Hand& h) {
            return carry_camera(h.scene, h.lot.between(-1, 20), h.lot.between(-3, 3));
        },
        [](const Hand& h) { return raise_camera(h.lot.between(-1, 8)); },
        [](const Hand&) { return aim_at_group(); },
        [](const Hand& h) { return frame_group(h.scene).value_or(Change{}); },
        [](const Hand& h) { return aim_at(h.scene, h.anybody()); },
        [](const Hand& h) { return keep_level(h.lot.in(0.5)); },
        [](const Hand& h) {
            return orient_camera(static_cast<scene::Orientation>(h.lot.below(2)));
        },
        [](const Hand& h) {
            const std::array<std::string_view, 7> keys{
                "camera.f_number", "camera.iso",        "camera.megapixels", "camera.distance_m",
                "odds.delay_s",    "light.scene_ev100", "lens.blades"};
            const std::array<double, 8> values{0, -1, 1, 2.8, 5, 1e-300, 1e300, 24};
            return type_in(h.lot.one_of(keys), h.lot.one_of(values));
        },
        [](const Hand& h) { return stop_down(h.scene, static_cast<int>(h.lot.between(-5, 5))); },
        [](const Hand& h) {
            return shorten_shutter(h.scene, static_cast<int>(h.lot.between(-5, 5)));
        },
        [](const Hand& h) { return raise_iso(h.scene, static_cast<int>(h.lot.between(-5, 5))); },
        [](const Hand& h) { return zoom(h.lot.between(-5, 300)); },
        [](const Hand& h) { return focus_on(h.scene, h.anybody()); },
        [](const Hand&) { return focus_evenly(); },
        [](const Hand& h) { return focus_at(h.lot.between(-1, 20)); },
        [](const Hand& h) {
            return view_as(
                h.lot.in(0.3) ? scene::Viewing{scene::PixelViewing{}}
                              : optics::PrintViewing{h.lot.between(0, 200), h.lot.between(0, 200)});
        },
        [](const Hand& h) {
            const Notch notch{.is_forward = h.lot.in(0.5),
                              .with_ctrl = h.lot.in(0.3),
                              .with_shift = h.lot.in(0.3),
                              .with_alt = h.lot.in(0.3)};
            return h.lot.in(0.5)
                       ? turn_wheel_over_picture(h.scene, scene::camera_view(h.scene), notch)
                       : turn_wheel_over_person(h.scene, h.anybody(), notch);
        },
        [](const Hand& h) { return lay_ground(static_cast<setting::Ground>(h.lot.below(4))); },
        [](const Hand& h) { return add_backdrop(h.scene); },
        [](const Hand& h) {
            const std::size_t number = h.backdrop();
            return number < h.scene.setting.backdrops.size() ? take_backdrop_away(h.scene, number)
                                                             : Change{};
        },
        [](const Hand& h) {
            const std::size_t number = h.backdrop();
            const auto kind = static_cast<setting::BackdropKind>(h.lot.below(10));
            return number < h.scene.setting.backdrops.size() && kind != setting::BackdropKind::photo
                       ? choose_backdrop(h.scene, number, kind)
                       : add_backdrop(h.scene);
        },
        [](const Hand& h) {
            return choose_finish(h.backdrop(), static_cast<setting::Finish>(h.lot.below(2)));
        },
        [](const Hand& h) {
            const std::size_t number = h.backdrop();
            return number < h.scene.setting.backdrops.size()
                       ? move_backdrop(h.scene, number, h.lot.between(-5, 90))
                       : Change{};
        },
        [](const Hand& h) {
            return hang_photo(h.scene, h.backdrop(), h.lot.in(0.8) ? "place.png" : "nowhere.png",
                              h.lot.between(-1, 30));
        },
        [](const Hand& h) { return scale_photo(h.backdrop(), h.lot.between(0, 30)); },
        [](const Hand& h) { return shift_photo(h.backdrop(), h.lot.between(-9, 9)); },
        [](const Hand& h) { return raise_photo(h.backdrop(), h.lot.between(-3, 3)); },
        [](const Hand& h) { return hang_panorama(h.lot.in(0.8) ? "place.png" : "nowhere.png"); },
        [](const Hand& h) { return turn_panorama(h.lot.between(-500, 500)); },
        [](const Hand&) { return take_panorama_away(); },
        [](const Hand& h) {
            const std::array<std::string_view, 3> files{"bench.obj", "broken.obj", "nowhere.obj"};
            return add_model(h.scene, h.lot.one_of(files));
        },
        [](const Hand& h) {
            const std::size_t number = h.model();
            return number < h.scene.models.size() ? take_model_away(h.scene, number) : Change{};
        },
        [](const Hand& h) {
            const std::size_t number = h.model();
            return number < h.scene.models.size()
                       ? place_model(
                             h.scene, number,
                             {h.lot.between(-9, 9), h.lot.between(-2, 3), h.lot.between(-9, 9)})
                       : Change{};
        },
        [](const Hand& h) { return turn_model(h.model(), h.lot.between(-400, 400)); },
        [](const Hand& h) { return size_model(h.model(), h.lot.between(-1, 5)); },
        [](const Hand& h) { return light_by(static_cast<scene::LightKind>(h.lot.below(2))); },
        [](const Hand& h) { return turn_sun(h.scene, h.lot.between(-400, 400)); },
        [](const Hand& h) { return raise_sun(h.lot.between(-100, 100)); },
        [](const Hand& h) {
            return move_window(h.scene, {.azimuth_deg = h.lot.between(-400, 400),
                                         .distance_m = h.lot.between(-1, 9),
                                         .width_m = h.lot.between(-1, 9),
                                         .height_m = h.lot.between(-1, 9),
                                         .sill_m = h.lot.between(-2, 3)});
        },
        [](const Hand& h) { return brighten(h.lot.between(-20, 30)); },
    };
    return deeds;
}

/// As often to people as to everything else.
inline Change deed_by_lot(const Hand& hand) {
    const auto& deeds = hand.lot.in(0.5) ? deeds_to_people() : deeds_to_the_rest();
    return deeds[hand.lot.below(deeds.size())](hand);
}

}  // namespace backrow::rehearsal
