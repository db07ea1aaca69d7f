#include "window/commands/commands.h"
#include "window/panels/panels.h"

#include "optics/stops.h"
#include "rehearsal/differences.h"
#include "report/text/exposure_words.h"
#include "report/text/viewing_words.h"
#include "scene/words.h"

#include <fmt/format.h>

#include <string>

namespace backrow::window {
namespace {

void draw_rings(WindowState& state) {
    const scene::Camera& camera = state.sitting.scene().camera;
    const rehearsal::Facts& facts = state.sitting.facts();
    if (const int way =
            stepper(state, "Aperture", fmt::format("f/{:g}", camera.f_number), "open##f", "stop##f",
                    "Stopping down one stop makes every blur, of faces and of the background, 0.7 "
                    "times as large, and costs half the light."))
        stop_down(state, way);
    if (const int way =
            stepper(state, "Distance",
                    length_words(camera.lens_to_mark_m, LengthScale::metres, state.style.lengths),
                    "nearer##d", "back##d",
                    "Twice as far away, depth of field is about four times as deep, "
                    "and faces are half as large."))
        step_back(state, way * 0.10);
    if (const int way =
            stepper(state, "Lens", fmt::format("{:g} mm", camera.focal_length_mm), "shorter##l",
                    "longer##l",
                    "With the faces kept as large, the focal length hardly changes their blur, but "
                    "a longer lens melts more of the background."))
        lengthen_lens(state, way);
    if (const int way =
            stepper(state, "Focus",
                    length_words(facts.view.lens.focus_m, LengthScale::metres, state.style.lengths),
                    "nearer##s", "farther##s",
                    "A little less of the depth that is sharp lies in front of the plane of "
                    "focus than behind it: three rows are held from the middle one."))
        shift_focus(state, way * 0.02);
    if (const int way =
            stepper(state, "Height",
                    length_words(camera.height_m, LengthScale::metres, state.style.lengths),
                    "lower##h", "higher##h",
                    "From a little higher, the rows behind come out from behind those "
                    "in front. Mind what you stand on."))
        lift_camera(state, way * 0.05);
    if (const int way = stepper(
            state, "Shutter", optics::shutter_words(camera.shutter_s), "slower##t", "faster##t",
            "People who stand still sway; a slower shutter draws that into a streak."))
        state.make(rehearsal::shorten_shutter(state.sitting.scene(), way));
    if (const int way = stepper(state, "ISO", fmt::format("{:.0f}", camera.iso), "lower##i",
                                "higher##i", "Pays for a smaller opening with noise."))
        state.make(rehearsal::raise_iso(state.sitting.scene(), way));
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
    state.widget_rects.note_last("viewing");
    teach(state, "A blur is judged by how large it is in the finished picture: a wall is stricter "
                 "than an album, and single pixels are the strictest.");
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
    // Beside the rings where there is room for words, else below them.
    const float room = ImGui::GetContentRegionMax().x - ImGui::GetItemRectSize().x;
    if (room > state.style.units(190))
        ImGui::SameLine(0, state.style.units(10));
    ImGui::BeginGroup();
    draw_camera_buttons(state);
    choose_viewing(state);
    ImGui::Spacing();
    tell_exposure(state);
    ImGui::EndGroup();
}

}  // namespace backrow::window
