#include "window/drawings/above_drawing.h"
#include "window/drawings/drawing_hand.h"
#include "window/drawings/views.h"
#include "window/face_words.h"

#include "rehearsal/hands/light_handling.h"
#include "rehearsal/hands/under_pointer.h"
#include "rehearsal/hands/wheel.h"

#include <fmt/format.h>

#include <cmath>

namespace backrow::window {
namespace {

using plan::FromAbove;

constexpr double above_reach_units = 9;
constexpr double above_margin_units = 26;

plan::Extent laid_extent(const FromAbove& drawing) {
    const plan::Extent straight = extent_of(drawing);
    plan::Extent laid;
    laid.take(laid_right(straight.low));
    laid.take(laid_right(straight.high));
    return laid;
}

/// Over somebody with a key pressed, the wheel is theirs. Whether it was.
bool turn_wheel(WindowState& state, std::size_t person) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.MouseWheel == 0 || (!io.KeyCtrl && !io.KeyShift))
        return false;
    state.make(rehearsal::turn_wheel_over_person(
        state.sitting.scene(), person,
        {.is_forward = io.MouseWheel > 0, .with_ctrl = io.KeyCtrl, .with_shift = io.KeyShift}));
    return true;
}

/// Who is under the pointer after all that the hand has done this frame.
std::optional<std::size_t> obey_hand_from_above(WindowState& state, const DrawingInput& input) {
    if (input.is_pressed && !state.kept.is_shown)
        obey(state, press_from_above(state.sitting.scene(), state.sitting.facts(), input.pointer,
                                     state.sitting.all_chosen()));
    drag_on(state, rehearsal::Drawing::from_above, input.pointer);
    if (!input.is_hovered)
        return std::nullopt;
    const auto under =
        rehearsal::person_at(state.shown_facts().above, input.pointer.at, input.pointer.reach_m);
    const bool took_wheel = under && !state.kept.is_shown && turn_wheel(state, *under);
    zoom_and_pan(state.drawings.above, !took_wheel);
    return under;
}

void note_rects(WidgetRects& rects, const Pen& pen, const FromAbove& drawing,
                const scene::Scene& scene) {
    const auto note = [&](const std::string& name, const plan::DrawingPoint& point) {
        const ImVec2 at = pen.at(point);
        rects.note(name, {at.x - 4, at.y - 4}, {at.x + 4, at.y + 4});
    };
    for (std::size_t i = 0; i < drawing.people.size(); ++i)
        note("person " + scene.people[i].name, drawing.people[i].head);
    note("lens", drawing.lens);
    if (drawing.sun)
        note("sun", drawing.sun->at);
    if (drawing.window)
        note("window", {(drawing.window->from.x_m + drawing.window->to.x_m) / 2,
                        (drawing.window->from.y_m + drawing.window->to.y_m) / 2});
    if (drawing.plane_of_focus)
        note("plane of focus", drawing.plane_of_focus->from);
}

void tell_person(const WindowState& state, const plan::Face& face) {
    ImGui::BeginTooltip();
    ImGui::PushFont(state.style.fonts.bold);
    ImGui::TextUnformatted(face.name.c_str());
    ImGui::PopFont();
    ImGui::TextUnformatted(
        fmt::format("{}; {} from the lens", blur_words(face),
                    length_words(face.axial_m, LengthScale::metres, state.style.lengths))
            .c_str());
    ImGui::TextDisabled("drag: in the row, or into another; with Shift: anywhere\n"
                        "Ctrl and wheel: turn; Shift and wheel: lean\n"
                        "Ctrl and click: choose as well");
    ImGui::EndTooltip();
}

std::string words_of_place(const rehearsal::PlaceSeen& seen, Units units) {
    const auto length = [&](double m) { return length_words(m, LengthScale::metres, units); };
    std::string words =
        fmt::format("{} {}, {} {} the mark", length(std::abs(seen.across_m)),
                    seen.across_m < 0 ? "left" : "right", length(std::abs(seen.back_m)),
                    seen.back_m < 0 ? "in front of" : "behind");
    if (seen.axial_m <= 0)
        return words;
    words += fmt::format("\n{} from the lens; the frame is {} × {} here", length(seen.range_m),
                         length(seen.frame_width_m), length(seen.frame_height_m));
    words += fmt::format("\na face here: {} px, {}", short_number(seen.blur_px),
                         optics::to_word(seen.grade));
    if (seen.fine)
        words += fmt::format("\nfine from {} to {}", length(seen.fine->near_m),
                             length(seen.fine->far_m));
    return words;
}

/// What of the light is under the pointer; whether anything is.
bool tell_light(const WindowState& state, const rehearsal::Pointer& pointer) {
    const FromAbove& above = state.shown_facts().above;
    const scene::Light& light = state.shown_scene().light;
    const bool is_sun = rehearsal::is_on_sun(above, pointer.at, pointer.reach_m);
    if (!is_sun && !rehearsal::is_on_window(above, pointer.at, pointer.reach_m))
        return false;
    ImGui::BeginTooltip();
    ImGui::TextUnformatted(
        is_sun ? fmt::format("The sun, {}; {:.0f}° high, {}",
                             rehearsal::side_words(light.sun_azimuth_deg), light.sun_elevation_deg,
                             rehearsal::height_words(light.sun_elevation_deg))
                     .c_str()
               : fmt::format("The window, {}", rehearsal::side_words(light.window.azimuth_deg))
                     .c_str());
    ImGui::TextDisabled(is_sun ? "drag it round the group" : "drag it; it keeps facing the mark");
    ImGui::EndTooltip();
    return true;
}

void tell_place(const WindowState& state, const plan::DrawingPoint& point) {
    const rehearsal::Facts& facts = state.shown_facts();
    ImGui::BeginTooltip();
    ImGui::TextUnformatted(words_of_place(rehearsal::place_seen(state.shown_scene(), facts.view,
                                                                facts.above.level_m, point),
                                          state.style.lengths)
                               .c_str());
    ImGui::EndTooltip();
}

}  // namespace

void draw_view_from_above(WindowState& state, const Area& area) {
    DrawingView& view = state.drawings.above;
    if (!state.drawings.drag)
        view.fit(laid_extent(state.shown_facts().above), screen_area(area),
                 above_margin_units * state.style.scale);
    const DrawingInput input =
        take_input(state, area, "from above", view, above_reach_units, from_laid_right);
    const auto under = obey_hand_from_above(state, input);

    const rehearsal::Facts& facts = state.shown_facts();
    const Pen pen{*ImGui::GetWindowDrawList(), state.style, view.scale, laid_right};
    pen.on.PushClipRect(area.least, area.most, true);
    draw_from_above(pen, facts.above, state.shown_scene(), facts.worst_first,
                    {.chosen = state.sitting.all_chosen(), .under_pointer = under});
    note_rects(state.widget_rects, pen, facts.above, state.shown_scene());
    draw_ruler(pen, area, laid_right(facts.above.lens).x_m);
    pen.on.PopClipRect();
    draw_title(pen, area, "From above");

    // What is being dragged is not to be covered.
    if (!input.is_hovered || state.drawings.drag || ImGui::IsMouseDown(ImGuiMouseButton_Right))
        return;
    if (under)
        tell_person(state, facts.table.faces[*under]);
    else if (!tell_light(state, input.pointer))
        tell_place(state, input.pointer.at);
}

}  // namespace backrow::window
