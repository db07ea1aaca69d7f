#include "window/drawings/drawing_hand.h"

#include <cmath>

namespace backrow::window {

DrawingInput take_input(WindowState& state, const Area& area, const char* name,
                        const DrawingView& view, double reach_units,
                        plan::DrawingPoint (*unlay)(const plan::DrawingPoint&)) {
    ImGui::GetWindowDrawList()->AddRectFilled(area.least, area.most, state.style.theme.paper);
    ImGui::SetCursorScreenPos(area.least);
    ImGui::InvisibleButton(name, {area.width(), area.height()},
                           ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonRight);
    state.widget_rects.note_last(name, {.role = "drawing"});
    const ImGuiIO& io = ImGui::GetIO();
    return {.is_hovered = ImGui::IsItemHovered(),
            .is_pressed = ImGui::IsItemClicked(ImGuiMouseButton_Left),
            .pointer = {.at = unlay(paper_from_screen(view.scale, {io.MousePos.x, io.MousePos.y})),
                        .reach_m = reach_units * state.style.scale / view.scale.units_per_m,
                        .with_ctrl = io.KeyCtrl,
                        .with_shift = io.KeyShift}};
}

void obey(WindowState& state, const rehearsal::Press& press) {
    state.sitting.choose_all(press.chosen);
    if (press.grip)
        state.drawings.drag = rehearsal::Drag{.grip = *press.grip, .id = state.sitting.new_drag()};
}

void drag_on(WindowState& state, rehearsal::Drawing drawing, const rehearsal::Pointer& pointer) {
    const std::optional<rehearsal::Drag>& drag = state.drawings.drag;
    if (!drag || drawing_of(drag->grip) != drawing ||
        !ImGui::IsMouseDragging(ImGuiMouseButton_Left, click_units))
        return;
    state.make(drag_to(state.sitting.scene(), state.sitting.facts(), drag->grip, pointer),
               drag->id);
}

void zoom_and_pan(DrawingView& view, bool may_zoom) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.MouseWheel != 0 && may_zoom)
        view.zoom({io.MousePos.x, io.MousePos.y}, std::pow(1.2, io.MouseWheel));
    if (ImGui::IsMouseDragging(ImGuiMouseButton_Right, 1))
        view.pan(io.MouseDelta.x, io.MouseDelta.y);
    else if (ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left))
        view.is_fitted = true;
}

}  // namespace backrow::window
