#include "window/drawings/drawing_part.h"
#include "window/drawings/views.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::window {
namespace {

using rehearsal::DrawingPoint;
using rehearsal::DrawingScale;
using rehearsal::FromTheSide;

DrawingPoint as_it_is(const DrawingPoint& point) {
    return point;
}

/// The head whose middle is nearest, within reach.
std::optional<std::size_t> head_at(const FromTheSide& drawing, const DrawingPoint& point,
                                   double reach_m) {
    std::optional<std::size_t> nearest;
    double least_m = 0;
    for (std::size_t i = 0; i < drawing.heads.size(); ++i) {
        const rehearsal::HeadFromTheSide& head = drawing.heads[i];
        const double apart_m =
            std::hypot((head.nearer_eye.x_m + head.farther_ear.x_m) / 2 - point.x_m,
                       (head.chin.y_m + head.crown.y_m) / 2 - point.y_m);
        if (apart_m < head.height_m / 2 + reach_m && (!nearest || apart_m < least_m)) {
            nearest = i;
            least_m = apart_m;
        }
    }
    return nearest;
}

/// A profile through the points that are known of a head, with the eye as the sign of its grade.
void draw_profile(ImDrawList& on, const WindowState& state, const DrawingScale& scale,
                  const rehearsal::HeadFromTheSide& head, bool is_marked) {
    const ImVec2 chin = on_screen(scale, head.chin);
    const ImVec2 crown = on_screen(scale, head.crown);
    const ImVec2 eye = on_screen(scale, head.nearer_eye);
    const ImVec2 nose = on_screen(scale, head.nose_tip);
    const ImVec2 ear = on_screen(scale, head.farther_ear);
    const float height = std::max(1.0f, std::hypot(crown.x - chin.x, crown.y - chin.y));
    const ImVec2 up{(crown.x - chin.x) / height, (crown.y - chin.y) / height};
    const float way = nose.x < ear.x ? 1.0f : -1.0f;  // the face looks to the left on the screen
    const ImVec2 forward{up.y * way, -up.x * way};
    const auto along = [&](const ImVec2& point) {
        return ((point.x - chin.x) * forward.x + (point.y - chin.y) * forward.y) / height;
    };
    const auto at = [&](float f, float u) {
        return ImVec2{chin.x + (forward.x * f + up.x * u) * height,
                      chin.y + (forward.y * f + up.y * u) * height};
    };
    // How the outline lies to the points is a drawing, not a measure.
    const float face = along(eye);
    const float back = std::min(along(ear), face - 0.2f);
    on.PathClear();
    on.PathLineTo(at(face - 0.02f, 0.02f));
    on.PathLineTo(at(face + 0.01f, 0.2f));
    on.PathLineTo(at(face + 0.03f, 0.32f));
    on.PathLineTo(nose);
    on.PathLineTo(at(face + 0.03f, 0.52f));
    on.PathBezierCubicCurveTo(at(face + 0.06f, 0.65f), at(face + 0.04f, 0.95f),
                              at(back + 0.12f, 1.0f));
    on.PathBezierCubicCurveTo(at(back - 0.35f, 1.05f), at(back - 0.55f, 0.6f),
                              at(back - 0.3f, 0.25f));
    on.PathBezierCubicCurveTo(at(back - 0.2f, 0.12f), at(back + 0.05f, 0.18f),
                              at(face - 0.02f, 0.02f));
    const ImVector<ImVec2> outline = on._Path;
    on.PathClear();
    const ImU32 ink = is_marked ? state.theme.accent : state.theme.faint_ink;
    on.AddConvexPolyFilled(outline.Data, outline.Size,
                           is_marked ? state.theme.accent_wash
                                     : with_alpha(state.theme.raised, 170));
    on.AddPolyline(outline.Data, outline.Size, ink, ImDrawFlags_Closed,
                   static_cast<float>((is_marked ? 2.2 : 1.2) * state.scale));
    draw_head(on, state, eye, static_cast<float>(4.2 * state.scale), head.grade);
}

}  // namespace

void draw_view_from_the_side(WindowState& state, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const Theme& theme = state.theme;
    on.AddRectFilled(area.least, area.most, theme.paper);
    ImGui::SetCursorScreenPos(area.least);
    ImGui::InvisibleButton("from the side", {area.width(), area.height()},
                           ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonRight);
    const bool hovered = ImGui::IsItemHovered();
    const bool pressed = ImGui::IsItemClicked(ImGuiMouseButton_Left);
    state.widget_rects.note_last("from the side");

    DrawingScale& scale = state.side;
    if (state.side_is_fitted && !state.drag)
        scale = fitted(state.shown_facts().side.heads_extent, screen_area(area), 22 * state.scale);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const auto pointed = [&] { return paper_from_screen(scale, {mouse.x, mouse.y}); };
    const double reach_m = 4 * state.scale / scale.units_per_m;
    if (pressed && !state.flips) {
        const auto head = head_at(state.shown_facts().side, pointed(), reach_m);
        state.sitting.choose(head);
        if (head)
            state.drag = Drag{.what = HeadGrip{*head, ImGui::GetIO().KeyShift},
                              .id = state.sitting.new_drag(),
                              .from = pointed(),
                              .beside = {state.sitting.scene().people[*head].place.back_m, 0},
                              .lean_m = state.sitting.scene().people[*head].pose.lean_m};
    }
    if (state.drag)
        if (const auto* head = std::get_if<HeadGrip>(&state.drag->what)) {
            const scene::Scene& scene = state.sitting.scene();
            const double back_m = pointed().x_m - state.drag->from.x_m;
            const scene::FromMark& place = scene.people[head->person].place;
            state.make(head->leans
                           ? rehearsal::lean(scene, head->person, state.drag->lean_m + back_m)
                           : rehearsal::lead(scene, head->person, place.across_m,
                                             state.drag->beside.x_m + back_m, false),
                       state.drag->id);
        }
    const FromTheSide& drawing = state.shown_facts().side;
    const auto under = hovered ? head_at(drawing, pointed(), reach_m) : std::nullopt;
    zoom_and_pan(scale, state.side_is_fitted, hovered, true);

    on.PushClipRect(area.least, area.most, true);
    draw_zone(on, scale, drawing.fine, theme.fine_wash, as_it_is);
    draw_zone(on, scale, drawing.crisp, theme.crisp_wash, as_it_is);
    if (drawing.plane_of_focus)
        on.AddLine(on_screen(scale, drawing.plane_of_focus->from),
                   on_screen(scale, drawing.plane_of_focus->to), theme.focus,
                   static_cast<float>(1.8 * state.scale));
    const auto chosen = state.sitting.chosen();
    for (const std::size_t i : state.shown_facts().worst_first)
        if (i != chosen && i != under)
            draw_profile(on, state, scale, drawing.heads[i], false);
    for (const auto& marked : {under, chosen})
        if (marked)
            draw_profile(on, state, scale, drawing.heads[*marked], true);
    for (std::size_t i = 0; i < drawing.heads.size(); ++i) {
        const ImVec2 eye = on_screen(scale, drawing.heads[i].nearer_eye);
        state.widget_rects.note("profile " + state.shown_scene().people[i].name,
                                {eye.x - 3, eye.y - 3}, {eye.x + 3, eye.y + 3});
    }
    draw_ruler(on, state, scale, area, 0);
    on.PopClipRect();
    on.AddText(state.fonts.bold, state.fonts.bold->FontSize,
               {area.least.x + static_cast<float>(8 * state.scale), area.least.y + 4}, theme.ink,
               "From the side");

    if (!under)
        return;
    const plan::Face& face = state.shown_facts().table.faces[*under];
    ImGui::BeginTooltip();
    ImGui::PushFont(state.fonts.bold);
    ImGui::TextUnformatted(face.name.c_str());
    ImGui::PopFont();
    ImGui::TextUnformatted(fmt::format("{}; {:.0f} cm {} the plane of focus", blur_words(face),
                                       std::abs(face.offset_mm) / 10,
                                       face.offset_mm < 0 ? "before" : "behind")
                               .c_str());
    ImGui::TextDisabled("drag: forward and back; with Shift: lean");
    ImGui::EndTooltip();
}

}  // namespace backrow::window
