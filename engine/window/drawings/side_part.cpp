#include "window/drawings/drawing_hand.h"
#include "window/drawings/side_drawing.h"
#include "window/drawings/views.h"
#include "window/face_words.h"

#include "rehearsal/hands/under_pointer.h"

namespace backrow::window {
namespace {

constexpr double side_reach_units = 4;
constexpr double side_margin_units = 22;

/// Who is under the pointer after all that the hand has done this frame.
std::optional<std::size_t> obey_hand_from_the_side(WindowState& state, const DrawingInput& input) {
    if (input.is_pressed && !state.kept.is_shown)
        obey(state,
             press_from_the_side(state.sitting.scene(), state.sitting.facts(), input.pointer));
    drag_on(state, rehearsal::Drawing::from_the_side, input.pointer);
    if (!input.is_hovered)
        return std::nullopt;
    zoom_and_pan(state.drawings.side, true);
    return rehearsal::head_at(state.shown_facts().side, input.pointer.at, input.pointer.reach_m);
}

void note_rects(WidgetRects& rects, const Pen& pen, const plan::FromTheSide& drawing,
                const scene::Scene& scene) {
    for (std::size_t i = 0; i < drawing.heads.size(); ++i) {
        const ImVec2 eye = pen.at(drawing.heads[i].nearer_eye);
        rects.note("profile " + scene.people[i].name, {eye.x - 3, eye.y - 3},
                   {eye.x + 3, eye.y + 3});
    }
}

void tell_head(const WindowState& state, const plan::Face& face) {
    ImGui::BeginTooltip();
    ImGui::PushFont(state.style.fonts.bold);
    ImGui::TextUnformatted(face.name.c_str());
    ImGui::PopFont();
    ImGui::TextUnformatted(
        (blur_words(face) + "; " + offset_words(face, state.style.lengths)).c_str());
    ImGui::TextDisabled("drag: forward and back; with Shift: lean");
    ImGui::EndTooltip();
}

}  // namespace

void draw_view_from_the_side(WindowState& state, const Area& area) {
    DrawingView& view = state.drawings.side;
    if (!state.drawings.drag)
        view.fit(state.shown_facts().side.heads_extent, screen_area(area),
                 side_margin_units * state.style.scale);
    const DrawingInput input =
        take_input(state, area, "from the side", view, side_reach_units, laid_as_is);
    const auto under = obey_hand_from_the_side(state, input);

    const rehearsal::Facts& facts = state.shown_facts();
    const Pen pen{*ImGui::GetWindowDrawList(), state.style, view.scale, laid_as_is};
    pen.on.PushClipRect(area.least, area.most, true);
    draw_from_the_side(pen, facts.side, facts.worst_first,
                       {.chosen = state.sitting.all_chosen(), .under_pointer = under});
    note_rects(state.widget_rects, pen, facts.side, state.shown_scene());
    draw_ruler(pen, area, 0);
    pen.on.PopClipRect();
    draw_title(pen, area, "From the side");
    if (under && !state.drawings.drag)
        tell_head(state, facts.table.faces[*under]);
}

}  // namespace backrow::window
