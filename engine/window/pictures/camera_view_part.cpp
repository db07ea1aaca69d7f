#include "window/drawings/drawing_hand.h"
#include "window/drawings/views.h"
#include "window/face_words.h"

#include "rehearsal/hands/wheel.h"

#include <fmt/format.h>

#include <algorithm>
#include <variant>

namespace backrow::window {
namespace {

constexpr ImU32 unexposed = IM_COL32(52, 54, 58, 255);

using FaceAreas = std::vector<std::optional<Area>>;

void draw_picture(ImDrawList& on, const PictureLayout& layout, const Hung& hung) {
    const Area area = layout.area();
    // Under a picture that fills it, a hairline of this would show at the edge.
    if (hung.picture.empty() || !(hung.print.part == layout.crop))
        on.AddRectFilled(area.least, area.most, unexposed);
    if (hung.picture.empty())
        return;
    // A print of another part, such as of the moment before it was enlarged, goes where it belongs.
    const Area print = layout.screen(hung.print.part);
    on.PushClipRect(area.least, area.most, true);
    on.AddImage(hung.picture.id(), print.least, print.most);
    on.PopClipRect();
}

/// Under the face, with the name, which keeps within the picture.
void draw_chosen(ImDrawList& on, const Style& style, const Area& picture, const Area& face,
                 const std::string& name) {
    const ImVec2 size = ImGui::CalcTextSize(name.c_str());
    const float room = size.x / 2 + style.units(4);
    const float middle = std::max(
        picture.least.x + room, std::min((face.least.x + face.most.x) / 2, picture.most.x - room));
    const float half = std::max(size.x / 2 + style.units(4), face.width() / 2);
    const float top = face.most.y + style.units(3);
    on.AddRectFilled({middle - half, top}, {middle + half, top + style.units(3)},
                     style.theme.accent);
    on.AddRectFilled({middle - size.x / 2 - style.units(4), top + style.units(3)},
                     {middle + size.x / 2 + style.units(4), top + style.units(5) + size.y},
                     with_alpha(style.theme.paper, 220));
    on.AddText({middle - size.x / 2, top + style.units(3)}, style.theme.accent, name.c_str());
}

/// Above a face, on a dark plate.
void draw_mark(ImDrawList& on, const Style& style, const Area& face, plan::Verdict verdict) {
    const double size = 0.8 * style.scale;
    const auto width = static_cast<float>(22 * size);
    const auto height = static_cast<float>(14 * size);
    const ImVec2 at{(face.least.x + face.most.x) / 2 - static_cast<float>(11 * size),
                    face.least.y - static_cast<float>(17 * size)};
    on.AddRectFilled({at.x - 3, at.y - 2}, {at.x + width + 3, at.y + height + 2},
                     IM_COL32(20, 22, 26, 190), 4);
    draw_verdict(on, at, verdict, size);
}

/// On the whole picture: who is chosen, on whom it is focused, and who is not sharp.
void draw_marks(ImDrawList& on, const WindowState& state, const Area& picture,
                const FaceAreas& areas) {
    const plan::FaceTable& table = state.shown_facts().table;
    const auto* focused = std::get_if<scene::FocusOnPerson>(&state.shown_scene().focus);
    for (std::size_t i = 0; i < areas.size(); ++i) {
        if (!areas[i])
            continue;
        const bool is_chosen = state.sitting.is_chosen(i);
        const plan::Verdict verdict = verdict_of(table.faces[i]);
        const bool is_well = verdict == plan::Verdict::crisp || verdict == plan::Verdict::fine;
        if (focused != nullptr && focused->name == table.faces[i].name)
            draw_focus_mark(on, state.style.theme, (areas[i]->least.y + areas[i]->most.y) / 2,
                            areas[i]->least.x, areas[i]->most.x,
                            std::max(state.style.units(8), areas[i]->width() * 0.4f),
                            state.style.scale);
        if (is_chosen)
            draw_chosen(on, state.style, picture, *areas[i], table.faces[i].name);
        if (state.has_marks && (!is_well || is_chosen))
            draw_mark(on, state.style, *areas[i], verdict);
    }
}

void draw_progress(ImDrawList& on, const WindowState& state, const Area& area) {
    if (state.pictures.work == Work::none)
        return;
    const float y = area.most.y - state.style.units(3);
    on.AddRectFilled({area.least.x, y}, area.most, IM_COL32(0, 0, 0, 90));
    on.AddRectFilled(
        {area.least.x, y},
        {area.least.x + area.width() * static_cast<float>(state.pictures.share), area.most.y},
        state.style.theme.accent);
}

/// A plate behind words, so that they can be read on any picture.
void draw_words(ImDrawList& on, const Style& style, const ImVec2& left_top,
                const std::string& words, ImU32 colour) {
    const ImVec2 size = ImGui::CalcTextSize(words.c_str());
    const float pad = style.units(2);
    on.AddRectFilled({left_top.x - pad, left_top.y},
                     {left_top.x + size.x + pad, left_top.y + size.y},
                     with_alpha(style.theme.paper, 200), pad);
    on.AddText(left_top, colour, words.c_str());
}

void tell_how_it_stands(ImDrawList& on, const WindowState& state, const Area& area, bool is_empty) {
    const Style& style = state.style;
    const ImVec2 top{area.least.x + 8, area.least.y + 6};
    if (state.kept.is_shown)
        draw_words(on, style, top, "The state that was kept", style.theme.accent);
    if (!state.pictures.complaint.empty())
        draw_words(on, style, {area.least.x + 8, area.most.y - 30}, state.pictures.complaint,
                   style.theme.ink);
    else if (is_empty)
        draw_words(on, style, top, "Building the scene and its light", style.theme.faint_ink);
}

void tell_face(const WindowState& state, std::size_t person) {
    const plan::Face& face = state.shown_facts().table.faces[person];
    ImGui::BeginTooltip();
    ImGui::PushFont(state.style.fonts.bold);
    ImGui::TextUnformatted(face.name.c_str());
    ImGui::PopFont();
    ImGui::TextUnformatted(blur_words(face).c_str());
    ImGui::TextUnformatted(
        fmt::format("{} from the lens, {}",
                    length_words(face.axial_m, LengthScale::metres, state.style.lengths),
                    offset_words(face, state.style.lengths))
            .c_str());
    if (const std::string parts = blur_parts_words(face); !parts.empty())
        ImGui::TextUnformatted(parts.c_str());
    ImGui::TextDisabled("click: choose; double click: focus on the nearer eye\n"
                        "Ctrl and click: choose as well\n"
                        "drag: along the row, or to another; with Shift: back and forward");
    ImGui::EndTooltip();
}

/// What the hand does over the picture.
void obey_hand(WindowState& state, const PictureLayout& layout, std::optional<std::size_t> under) {
    const ImGuiIO& io = ImGui::GetIO();
    const PicturePoint at = layout.picture({io.MousePos.x, io.MousePos.y});
    const rehearsal::Pointer pointer{
        .at = {at.x_px, at.y_px}, .with_ctrl = io.KeyCtrl, .with_shift = io.KeyShift};
    drag_on(state, rehearsal::Drawing::picture, pointer);
    if (state.drawings.drag)
        return;
    if (io.MouseWheel != 0)
        state.make(rehearsal::turn_wheel_over_picture(state.sitting.scene(),
                                                      state.sitting.facts().view,
                                                      {.is_forward = io.MouseWheel > 0,
                                                       .with_ctrl = io.KeyCtrl,
                                                       .with_shift = io.KeyShift,
                                                       .with_alt = io.KeyAlt}));
    if (state.look.is_full_size && ImGui::IsMouseDragging(ImGuiMouseButton_Left, click_units)) {
        state.look = dragged(state.look, layout,
                             ImGui::GetMouseDragDelta(ImGuiMouseButton_Left, click_units));
        ImGui::ResetMouseDragDelta();
        return;
    }
    if (!ImGui::IsMouseClicked(ImGuiMouseButton_Left))
        return;
    if (!under)
        state.sitting.choose(std::nullopt);
    else if (ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left))
        state.make(rehearsal::focus_on(state.sitting.scene(), *under));
    else
        obey(state, press_on_face(state.sitting.scene(), state.sitting.facts(), pointer, *under,
                                  state.sitting.all_chosen()));
}

void note_rects(WidgetRects& rects, const FaceAreas& areas, const plan::FaceTable& table) {
    for (std::size_t i = 0; i < areas.size(); ++i)
        if (areas[i])
            rects.note("face " + table.faces[i].name, areas[i]->least, areas[i]->most);
}

}  // namespace

void draw_camera_view(WindowState& state, const Area& room) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const rehearsal::Facts& facts = state.shown_facts();
    const PictureLayout layout =
        lay_picture(state.look, facts.view, room, state.style.texels_per_unit);
    state.wanted_prints.picture = layout.crop;
    const Area area = layout.area();
    const Hung& hung = state.kept.is_shown ? state.kept.picture : state.pictures.picture;
    draw_picture(on, layout, hung);

    ImGui::SetCursorScreenPos(area.least);
    ImGui::InvisibleButton("picture", {area.width(), area.height()});
    state.widget_rects.note_last("picture", {.role = "drawing"});
    const bool is_hovered = ImGui::IsItemHovered();
    const FaceAreas areas = face_areas(layout, facts.view, state.shown_scene());
    note_rects(state.widget_rects, areas, facts.table);
    if (!state.look.is_full_size) {
        on.PushClipRect(area.least, area.most, true);
        draw_marks(on, state, area, areas);
        on.PopClipRect();
    }
    draw_progress(on, state, area);
    tell_how_it_stands(on, state, area, hung.picture.empty());
    const bool holds_face =
        state.drawings.drag && drawing_of(state.drawings.drag->grip) == rehearsal::Drawing::picture;
    if (!(is_hovered || holds_face) || state.kept.is_shown)
        return;
    const auto under = face_at(areas, facts.table, ImGui::GetIO().MousePos);
    if (under && !state.drawings.drag)
        tell_face(state, *under);
    obey_hand(state, layout, under);
}

}  // namespace backrow::window
