#include "window/commands/commands.h"
#include "window/panels/panels.h"

#include "optics/exposure/stops.h"
#include "rehearsal/told/differences.h"
#include "report/text/exposure_words.h"
#include "report/text/viewing_words.h"
#include "scene/words.h"

#include <fmt/format.h>

#include <cstddef>
#include <optional>
#include <string>
#include <utility>

namespace backrow::window {
namespace {

/// A ring of the lens or a wheel of the camera.
struct Ring {
    Stepper stepper;
    const char* key;  ///< Of the scene file, for what is typed.
    void (*turn)(WindowState&, int way);
};

void draw_rings(WindowState& state) {
    const scene::Camera& camera = state.sitting.scene().camera;
    const auto length = [&](double m) {
        return length_words(m, LengthScale::metres, state.style.lengths);
    };
    const Ring rings[]{
        {{"Aperture", fmt::format("f/{:g}", camera.f_number), "open##f", "stop##f",
          "Stopping down one stop makes every blur, of faces and of the background, 0.7 times as "
          "large, and costs half the light.",
          Measure::f_number},
         "camera.f_number",
         stop_down},
        {{"Distance", length(camera.lens_to_mark_m), "nearer##d", "back##d",
          "Twice as far away, depth of field is about four times as deep, and faces are half as "
          "large. Look behind you before you step back.",
          Measure::metres},
         "camera.distance_m",
         [](WindowState& s, int way) { step_back(s, way * 0.10); }},
        {{"Lens", fmt::format("{:g} mm", camera.focal_length_mm), "shorter##l", "longer##l",
          "With the faces kept as large, the focal length hardly changes their blur, but a longer "
          "lens melts more of the background.",
          Measure::millimetres},
         "camera.focal_length_mm",
         [](WindowState& s, int way) { lengthen_lens(s, way); }},
        {{"Focus", length(state.sitting.facts().view.lens.focus_m), "nearer##s", "farther##s",
          "A little less of the depth that is sharp lies in front of the plane of focus than "
          "behind it: three rows are held from the middle one.",
          Measure::metres},
         "focus.distance_m",
         [](WindowState& s, int way) { shift_focus(s, way * 0.02); }},
        {{"Height", length(camera.height_m), "lower##h", "higher##h",
          "From a little higher, the rows behind come out from behind those in front. Mind what "
          "you stand on.",
          Measure::metres},
         "camera.height_m",
         [](WindowState& s, int way) { lift_camera(s, way * 0.05); }},
        {{"Shutter", optics::shutter_words(camera.shutter_s), "slower##t", "faster##t",
          "People who stand still sway; a slower shutter draws that into a streak.",
          Measure::seconds},
         "camera.shutter_s",
         [](WindowState& s, int way) {
             s.make(rehearsal::shorten_shutter(s.sitting.scene(), way));
         }},
        {{"ISO", fmt::format("{:.0f}", camera.iso), "lower##i", "higher##i",
          "Pays for a smaller opening with noise."},
         "camera.iso",
         [](WindowState& s, int way) { s.make(rehearsal::raise_iso(s.sitting.scene(), way)); }}};
    for (const Ring& ring : rings) {
        const Stepped stepped = draw_stepper(state, ring.stepper);
        if (stepped.typed)
            state.make(rehearsal::type_in(ring.key, *stepped.typed));
        else if (stepped.way != 0)
            ring.turn(state, stepped.way);
    }
}

void choose_viewing(WindowState& state) {
    struct Way {
        const char* name;
        scene::Use use;
    };
    constexpr Way ways[]{{"on a phone", scene::Use::phone},
                         {"in an album", scene::Use::album},
                         {"on a wall", scene::Use::wall},
                         {"pixel by pixel", scene::Use::single_pixels}};
    // The first words of it: how long and from where is told with the exposure.
    const std::string words =
        report::viewing_words(state.sitting.scene().viewing, state.style.lengths);
    const std::string now = words.substr(0, words.find(','));
    ImGui::TextDisabled("Seen");
    ImGui::SetNextItemWidth(-1);
    if (ImGui::BeginCombo("##viewing", now.c_str())) {
        for (const Way& way : ways)
            if (ImGui::Selectable(way.name))
                state.make(rehearsal::view_as(scene::viewing_for(way.use)));
        ImGui::EndCombo();
    }
    state.widget_rects.note_last("viewing", Control::list(now));
    teach(state, "A blur is judged by how large it is in the finished picture: a wall is stricter "
                 "than an album, and single pixels are the strictest.");
}

/// A lens and a body out of the bag.
void draw_bag(WindowState& state) {
    const auto choose = [&](const char* id, const char* now, const auto& things, const auto& use) {
        ImGui::SetNextItemWidth(-1);
        if (ImGui::BeginCombo(id, now)) {
            for (const auto& thing : things) {
                if (ImGui::Selectable(thing.name.c_str()))
                    state.make(use(thing));
                state.widget_rects.note_last("word " + thing.name);
            }
            ImGui::EndCombo();
        }
        state.widget_rects.note_last(std::string{"choose "} + (id + 2), Control::list(now));
    };
    ImGui::TextDisabled("From the bag");
    choose("##bag lens", "another lens", state.bag.bag.lenses,
           [&](const auto& lens) { return rehearsal::take_lens(state.sitting.scene(), lens); });
    teach(state,
          "A lens that you carry: its focal length, no wider than it opens, with its profile "
          "where it has one.");
    choose("##own lens", state.bag.faults_of(state.sitting.scene()).c_str(), state.bag.own_lenses,
           [&](const OwnLens& own) {
               return own.named.empty()
                          ? rehearsal::take_perfect_lens(state.sitting.scene())
                          : rehearsal::take_own_lens(state.sitting.scene(), own.named, own.lens);
           });
    teach(state,
          "What a lens does to sharpness, corners and colour, as if yours were like it; nobody's "
          "in particular. The focal length stays.");
    choose("##bag body", "another body", state.bag.bag.bodies,
           [&](const auto& body) { return rehearsal::take_body(body); });
    if (button(state, "Into the bag",
               "What is on the camera now, for the next scene as well. The "
               "bag is a file of its own, bag.toml.")) {
        if (std::string wrong = state.bag.take(state.sitting.scene()); !wrong.empty())
            state.sitting.complain(std::move(wrong));
        else
            state.notice = "In the bag: " + rehearsal::lens_on_camera(state.sitting.scene()).name;
    }
}

/// What the group would be from each place that is kept; again whenever the scene is another.
void look_from_places(WindowState& state) {
    KeptPlaces& kept = state.places;
    if (kept.edition == state.sitting.edition() || state.drawings.drag)
        return;
    kept.edition = state.sitting.edition();
    for (KeptPlace& each : kept.places) {
        const auto seen = rehearsal::seen_from(state.sitting.scene(), each.place);
        if (!seen) {
            each.standing = "whoever it was focused on has left";
            continue;
        }
        const scene::CameraView view = camera_view(*seen);
        each.standing =
            standing_words(rehearsal::standing_of(*seen, view, plan::face_table(*seen, view)));
    }
}

void draw_places(WindowState& state) {
    ImGui::TextDisabled("Places of the camera");
    ImGui::SameLine();
    if (button(
            state, "Keep this one",
            "Where the camera stands, with lens, rings and focus, to compare with others and to go "
            "back to. It is there again when the scene is opened again.")) {
        state.places.places.push_back({.place = rehearsal::camera_place(state.sitting.scene())});
        state.places.edition = -1;
        state.places.keep(state.sitting.edited());
    }
    look_from_places(state);
    std::optional<std::size_t> dropped;
    for (std::size_t i = 0; i < state.places.places.size(); ++i) {
        const KeptPlace& each = state.places.places[i];
        ImGui::PushID(static_cast<int>(i));
        if (ImGui::SmallButton("go"))
            state.make(rehearsal::go_to(state.sitting.scene(), each.place));
        state.widget_rects.note_last(fmt::format("go to place {}", i + 1));
        ImGui::SameLine();
        if (ImGui::SmallButton("forget"))
            dropped = i;
        state.widget_rects.note_last(fmt::format("forget place {}", i + 1));
        ImGui::SameLine();
        ImGui::TextUnformatted(place_words(each.place, state.style.lengths).c_str());
        ImGui::TextDisabled("%s", each.standing.c_str());
        ImGui::PopID();
    }
    if (!dropped)
        return;
    state.places.places.erase(state.places.places.begin() + static_cast<std::ptrdiff_t>(*dropped));
    state.places.keep(state.sitting.edited());
}

void draw_camera_buttons(WindowState& state) {
    ImGui::TextDisabled(
        "Focus %s",
        rehearsal::focus_words(state.sitting.scene().focus, state.style.lengths).c_str());
    if (button(state, "Focus evenly",
               "Between the nearest and the farthest eye, so that both are blurred alike (E)."))
        state.make(rehearsal::focus_evenly());
    ImGui::SameLine();
    const bool is_upright =
        state.sitting.scene().camera.orientation == scene::Orientation::portrait;
    if (button(state, is_upright ? "Landscape" : "Portrait",
               "The camera turned by a quarter: landscape for a row, portrait for a couple."))
        state.make(rehearsal::orient_camera(is_upright ? scene::Orientation::landscape
                                                       : scene::Orientation::portrait));
    if (button(state, "Aim at the group",
               "The camera keeps the whole group in the picture where it fits, else the faces."))
        state.make(rehearsal::aim_at_group());
    if (button(state, "Frame the group",
               "From as near as shows everybody whole, aimed at the group. Look behind you before "
               "you step back."))
        if (const auto change = rehearsal::frame_group(state.sitting.scene()))
            state.make(*change);
    bool level = state.sitting.scene().camera.level;
    if (ImGui::Checkbox("camera level", &level))
        state.make(rehearsal::keep_level(level));
    state.widget_rects.note_last("camera level", Control::tick(level));
    teach(state, "Held level, walls stay upright; the plane of focus does, too.");
}

void tell_exposure(const WindowState& state) {
    const rehearsal::Facts& facts = state.sitting.facts();
    ImGui::PushFont(state.style.fonts.small);
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(
        report::exposure_lines(state.sitting.scene().camera, facts.table.metering).c_str());
    ImGui::TextUnformatted(fmt::format("Background blur {:.2f} % of the picture's height",
                                       facts.background.percent_of_height)
                               .c_str());
    teach(state, "A point of light in the background becomes a disc of this size; from about one "
                 "per cent on, a background melts.");
    ImGui::PopTextWrapPos();
    ImGui::PopFont();
}

}  // namespace

void draw_camera_panel(WindowState& state) {
    ImGui::BeginGroup();
    draw_rings(state);
    ImGui::EndGroup();
    beside_or_below(state);
    ImGui::BeginGroup();
    draw_camera_buttons(state);
    choose_viewing(state);
    ImGui::Spacing();
    tell_exposure(state);
    draw_bag(state);
    ImGui::EndGroup();
    draw_places(state);
}

}  // namespace backrow::window
