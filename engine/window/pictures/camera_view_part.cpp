#include "window/drawings/views.h"

#include "optics/stops.h"
#include "render/faces/face_crop.h"
#include "scene/set_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::window {
namespace {

using rehearsal::Change;

// One notch of the wheel.
constexpr double notch_of_distance_m = 0.10;
constexpr double notch_of_focal_length_mm = 1;
constexpr double notch_of_focus_m = 0.02;

/// How the picture lies on the screen.
struct Laid {
    ImVec2 left_top;
    double units_per_px;  // of the screen, per pixel of the camera
    render::CropRect part;
    [[nodiscard]] ImVec2 screen(double x_px, double y_px) const {
        return {left_top.x + static_cast<float>((x_px - part.left_px) * units_per_px),
                left_top.y + static_cast<float>((y_px - part.top_px) * units_per_px)};
    }
};

Laid whole_picture(const WindowState& state, const Area& area) {
    const scene::CameraView& view = state.shown_facts().view;
    const double units = std::min(area.width() / static_cast<double>(view.width_px),
                                  area.height() / static_cast<double>(view.height_px));
    const double width = std::floor(view.width_px * units);
    const double height = std::floor(view.height_px * units);
    return {
        .left_top = {area.least.x + std::floor(static_cast<float>((area.width() - width) / 2)),
                     area.least.y + std::floor(static_cast<float>((area.height() - height) / 2))},
        .units_per_px = units,
        .part =
            render::whole_frame(view, std::max(16, static_cast<int>(width * state.texels_per_unit)),
                                std::max(16, static_cast<int>(height * state.texels_per_unit)))};
}

Laid at_full_size(const WindowState& state, const Area& area) {
    const int width = std::max(16, static_cast<int>(area.width() * state.texels_per_unit));
    const int height = std::max(16, static_cast<int>(area.height() * state.texels_per_unit));
    return {.left_top = area.least,
            .units_per_px = 1 / state.texels_per_unit,
            .part = {.left_px = std::floor(state.looked_at_px.x - width / 2.0),
                     .top_px = std::floor(state.looked_at_px.y - height / 2.0),
                     .width_px = static_cast<double>(width),
                     .height_px = static_cast<double>(height),
                     .width_texels = width,
                     .height_texels = height}};
}

void turn_rings(WindowState& state, float notches) {
    const ImGuiIO& io = ImGui::GetIO();
    const scene::Scene& scene = state.sitting.scene();
    const auto way = notches > 0 ? 1 : -1;
    if (io.KeyShift)
        state.make(rehearsal::carry_camera(
            scene, scene.camera.lens_to_mark_m - way * notch_of_distance_m, scene.camera.across_m));
    else if (io.KeyCtrl)
        state.make(rehearsal::zoom(scene.camera.focal_length_mm + way * notch_of_focal_length_mm));
    else if (io.KeyAlt)
        state.make(
            rehearsal::focus_at(state.sitting.facts().view.lens.focus_m + way * notch_of_focus_m));
    else
        state.make(rehearsal::stop_down(scene, way));
}

void draw_brackets(ImDrawList& on, const ImVec2& least, const ImVec2& most, ImU32 colour,
                   float line) {
    const float arm = std::min(most.x - least.x, most.y - least.y) * 0.28f;
    for (const float x : {least.x, most.x})
        for (const float y : {least.y, most.y}) {
            const float to_x = x == least.x ? x + arm : x - arm;
            const float to_y = y == least.y ? y + arm : y - arm;
            on.AddLine({x, y}, {to_x, y}, colour, line);
            on.AddLine({x, y}, {x, to_y}, colour, line);
        }
}

void tell_face(const WindowState& state, std::size_t person) {
    const plan::Face& face = state.shown_facts().table.faces[person];
    ImGui::BeginTooltip();
    ImGui::PushFont(state.fonts.bold);
    ImGui::TextUnformatted(face.name.c_str());
    ImGui::PopFont();
    ImGui::TextUnformatted(blur_words(face).c_str());
    ImGui::TextUnformatted(fmt::format("{:.2f} m from the lens, {:.0f} cm {} the plane of focus",
                                       face.axial_m, std::abs(face.offset_mm) / 10,
                                       face.offset_mm < 0 ? "before" : "behind")
                               .c_str());
    ImGui::TextDisabled("click: focus on the nearer eye");
    ImGui::EndTooltip();
}

void draw_progress(const WindowState& state, ImDrawList& on, const Laid& laid,
                   const ImVec2& right_bottom) {
    if (state.work == Work::none)
        return;
    const float y = right_bottom.y - static_cast<float>(3 * state.scale);
    const float width = right_bottom.x - laid.left_top.x;
    on.AddRectFilled({laid.left_top.x, y}, right_bottom, IM_COL32(0, 0, 0, 90));
    on.AddRectFilled({laid.left_top.x, y},
                     {laid.left_top.x + width * static_cast<float>(state.share), right_bottom.y},
                     state.theme.accent);
}

}  // namespace

void draw_words(ImDrawList& on, const WindowState& state, const ImVec2& left_top,
                const std::string& words, ImU32 colour) {
    const ImVec2 size = ImGui::CalcTextSize(words.c_str());
    const float pad = static_cast<float>(2 * state.scale);
    on.AddRectFilled({left_top.x - pad, left_top.y},
                     {left_top.x + size.x + pad, left_top.y + size.y},
                     with_alpha(state.theme.paper, 200), pad);
    on.AddText(left_top, colour, words.c_str());
}

void draw_camera_view(WindowState& state, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const rehearsal::Facts& facts = state.shown_facts();
    const Laid laid = state.at_full_size ? at_full_size(state, area) : whole_picture(state, area);
    state.part = laid.part;
    const ImVec2 right_bottom =
        laid.screen(laid.part.left_px + laid.part.width_px, laid.part.top_px + laid.part.height_px);
    const bool flipped = state.flips;
    const Hung& hung = flipped ? state.kept_picture : state.picture;
    on.AddRectFilled(laid.left_top, right_bottom, IM_COL32(52, 54, 58, 255));
    if (!hung.picture.empty()) {
        // A print of another part, such as of the moment before it was enlarged, goes where it
        // belongs.
        const render::CropRect& part = hung.print.part;
        on.PushClipRect(laid.left_top, right_bottom, true);
        on.AddImage(hung.picture.id(), laid.screen(part.left_px, part.top_px),
                    laid.screen(part.left_px + part.width_px, part.top_px + part.height_px));
        on.PopClipRect();
    }

    ImGui::SetCursorScreenPos(laid.left_top);
    ImGui::InvisibleButton("picture",
                           {right_bottom.x - laid.left_top.x, right_bottom.y - laid.left_top.y});
    state.widget_rects.note_last("picture");
    const bool hovered = ImGui::IsItemHovered();
    const ImVec2 mouse = ImGui::GetIO().MousePos;

    std::optional<std::size_t> under;
    on.PushClipRect(laid.left_top, right_bottom, true);
    for (std::size_t i = 0; i < facts.table.faces.size(); ++i) {
        const auto face = render::face_crop(facts.view, state.shown_scene().people[i], 0.1);
        if (!face)
            continue;
        const ImVec2 least = laid.screen(face->left_px, face->top_px);
        const ImVec2 most =
            laid.screen(face->left_px + face->width_px, face->top_px + face->height_px);
        const plan::Face& facts_of_face = facts.table.faces[i];
        const bool is_under = hovered && mouse.x >= least.x && mouse.x <= most.x &&
                              mouse.y >= least.y && mouse.y <= most.y;
        // Whoever stands nearer hides whoever stands behind, from the pointer too.
        if (is_under && (!under || facts_of_face.axial_m < facts.table.faces[*under].axial_m))
            under = i;
        state.widget_rects.note("face " + facts_of_face.name, least, most);
        const bool is_chosen = state.sitting.chosen() == i;
        if (is_chosen && !state.at_full_size)
            draw_brackets(on, least, most, state.theme.accent, static_cast<float>(2 * state.scale));
        if (state.marks && !state.at_full_size &&
            (facts_of_face.grade >= optics::Grade::soft || is_chosen)) {
            const double size = 0.8 * state.scale;
            const ImVec2 at{(least.x + most.x) / 2 - static_cast<float>(11 * size),
                            least.y - static_cast<float>(17 * size)};
            on.AddRectFilled({at.x - 3, at.y - 2},
                             {at.x + static_cast<float>(22 * size) + 3,
                              at.y + static_cast<float>(14 * size) + 2},
                             IM_COL32(20, 22, 26, 190), 4);
            draw_grade(on, at, facts_of_face.grade, size);
        }
    }
    on.PopClipRect();
    draw_progress(state, on, laid, right_bottom);

    if (flipped)
        draw_words(on, state, {laid.left_top.x + 8, laid.left_top.y + 6}, "The state that was kept",
                   state.theme.accent);
    if (!state.darkroom_complaint.empty())
        draw_words(on, state, {laid.left_top.x + 8, right_bottom.y - 30}, state.darkroom_complaint,
                   state.theme.ink);
    else if (hung.picture.empty())
        draw_words(on, state, {laid.left_top.x + 8, laid.left_top.y + 6},
                   "Building the scene and its light", state.theme.faint_ink);

    if (!hovered || flipped)
        return;
    if (under)
        tell_face(state, *under);
    if (ImGui::GetIO().MouseWheel != 0)
        turn_rings(state, ImGui::GetIO().MouseWheel);
    if (state.at_full_size && ImGui::IsMouseDragging(ImGuiMouseButton_Left, 3)) {
        const ImVec2 by = ImGui::GetMouseDragDelta(ImGuiMouseButton_Left, 3);
        ImGui::ResetMouseDragDelta();
        state.looked_at_px.x -= by.x / laid.units_per_px;
        state.looked_at_px.y -= by.y / laid.units_per_px;
        return;
    }
    if (ImGui::IsMouseReleased(ImGuiMouseButton_Left) &&
        ImGui::GetMouseDragDelta(ImGuiMouseButton_Left, 3).x == 0 && under) {
        state.sitting.choose(under);
        state.make(rehearsal::focus_on(state.sitting.scene(), *under));
    }
}

}  // namespace backrow::window
