#include "window/deeds.h"
#include "window/panels.h"

#include "rehearsal/differences.h"
#include "report/exposure_words.h"

#include <fmt/format.h>

namespace backrow::window {

void draw_camera_panel(WindowState& state) {
    const scene::Camera& camera = state.sitting.scene().camera;
    const rehearsal::Facts& facts = state.sitting.facts();
    if (const int way = stepper(state, "Aperture", fmt::format("f/{:g}", camera.f_number),
                                "open##f", "stop##f",
                                "Stopping down one stop makes every blur, of faces and of the "
                                "background, 0.7 times as large, and costs half the light."))
        stop_down(state, way);
    if (const int way = stepper(state, "Distance", fmt::format("{:.2f} m", camera.lens_to_mark_m),
                                "nearer##d", "back##d",
                                "Twice as far away, depth of field is about four times as deep, "
                                "and faces are half as large."))
        step_back(state, way * 0.10);
    if (const int way =
            stepper(state, "Lens", fmt::format("{:g} mm", camera.focal_length_mm),
                    "shorter##l", "longer##l",
                    "With the faces kept as large, the focal length hardly changes their blur, but "
                    "a longer lens melts more of the background."))
        lengthen_lens(state, way);
    if (const int way =
            stepper(state, "Focus", fmt::format("{:.2f} m", facts.view.focus_m), "nearer##s",
                    "farther##s",
                    "Of the depth that is sharp a little less lies before the plane of focus than "
                    "behind it: the middle row, not the front one, holds three rows."))
        shift_focus(state, way * 0.02);
    ImGui::SameLine();
    ImGui::TextDisabled("%s", rehearsal::focus_words(state.sitting.scene().focus).c_str());
    if (const int way = stepper(state, "Height", fmt::format("{:.2f} m", camera.height_m),
                                "lower##h", "higher##h",
                                "From a little higher the rows behind come out from behind those "
                                "in front; mind where you stand."))
        lift_camera(state, way * 0.05);
    if (button(state, "Focus evenly", "Between the nearest and the farthest eye, so that both are "
                                      "blurred alike."))
        state.make(rehearsal::focus_evenly());
    ImGui::SameLine();
    if (button(state, "Focus on the chosen", "On the nearer eye of whoever is chosen."))
        focus_on_chosen(state);
    ImGui::Spacing();
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(
        report::exposure_lines(camera, facts.table.metering).c_str());
    ImGui::TextUnformatted(fmt::format("Background blur {:.2f} % of the picture's height",
                                       facts.background.percent_of_height)
                               .c_str());
    ImGui::PopTextWrapPos();
    teach(state, "A point of light in the background becomes a disc of this size; from about one "
                 "per cent on, a background melts.");
}

}  // namespace backrow::window
