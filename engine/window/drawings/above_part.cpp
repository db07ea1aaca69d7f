#include "window/drawings/drawing_part.h"
#include "window/drawings/views.h"

#include "rehearsal/group_handling.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace backrow::window {
namespace {

using rehearsal::DrawingPoint;
using rehearsal::DrawingScale;
using rehearsal::FromAbove;

// How near to a thing the pointer takes hold of it, units of the screen.
constexpr double reach_units = 9;
constexpr double notch_of_turn_deg = 5;
constexpr double notch_of_lean_m = 0.01;

rehearsal::Extent laid_extent(const FromAbove& drawing) {
    const rehearsal::Extent straight = extent_of(drawing);
    rehearsal::Extent laid;
    laid.take(laid_right(straight.low));
    laid.take(laid_right(straight.high));
    return laid;
}

void draw_blocks(ImDrawList& on, const WindowState& state, const DrawingScale& scale,
                 const std::vector<setting::Block>& blocks) {
    for (const setting::Block& block : blocks) {
        const ImVec2 one = on_screen(scale, laid_right({block.left_m, block.near_back_m}));
        const ImVec2 other = on_screen(scale, laid_right({block.right_m, block.far_back_m}));
        on.AddRectFilled({std::min(one.x, other.x), std::min(one.y, other.y)},
                         {std::max(one.x, other.x), std::max(one.y, other.y)}, state.theme.ground);
    }
}

/// An oval of these half axes, the second along the way it faces.
void draw_oval(ImDrawList& on, const DrawingScale& scale, const DrawingPoint& middle,
               double half_across_m, double half_along_m, const DrawingPoint& faces, ImU32 fill,
               ImU32 outline, float line) {
    constexpr int points = 28;
    std::array<ImVec2, points> round{};
    for (int i = 0; i < points; ++i) {
        const double angle = 2 * 3.14159265358979 * i / points;
        const double across = half_across_m * std::cos(angle);
        const double along = half_along_m * std::sin(angle);
        round[static_cast<std::size_t>(i)] =
            on_screen(scale, laid_right({middle.x_m + across * faces.y_m + along * faces.x_m,
                                         middle.y_m - across * faces.x_m + along * faces.y_m}));
    }
    on.AddConvexPolyFilled(round.data(), points, fill);
    on.AddPolyline(round.data(), points, outline, ImDrawFlags_Closed, line);
}

void draw_person(ImDrawList& on, const WindowState& state, const DrawingScale& scale,
                 const rehearsal::PersonFromAbove& person, bool is_marked) {
    const Theme& theme = state.theme;
    const auto line = static_cast<float>((is_marked ? 2.4 : 1.2) * state.scale);
    draw_oval(on, scale, person.shoulders, person.half_breadth_m, person.half_depth_m,
              person.body_faces, is_marked ? theme.accent_wash : theme.raised,
              is_marked ? theme.accent : theme.faint_ink, line);
    const ImVec2 head = on_screen(scale, laid_right(person.head));
    const auto radius = static_cast<float>(
        std::max(4.0 * state.scale, person.head_half_length_m * scale.units_per_m));
    // The nose tells which way somebody looks.
    const ImVec2 nose = on_screen(
        scale,
        laid_right({person.head.x_m + person.head_faces.x_m * 1.55 * radius / scale.units_per_m,
                    person.head.y_m + person.head_faces.y_m * 1.55 * radius / scale.units_per_m}));
    on.AddLine(head, nose, theme.faint_ink, static_cast<float>(2 * state.scale));
    draw_head(on, state, head, radius, person.grade);
}

void draw_camera(ImDrawList& on, const WindowState& state, const DrawingScale& scale,
                 const FromAbove& drawing) {
    const ImVec2 lens = on_screen(scale, laid_right(drawing.lens));
    const DrawingPoint looks = laid_right(drawing.looks);
    const ImVec2 along{static_cast<float>(looks.x_m), static_cast<float>(-looks.y_m)};
    const ImVec2 side{-along.y, along.x};
    const auto at = [&](double forward, double right) {
        const auto f = static_cast<float>(forward * state.scale);
        const auto r = static_cast<float>(right * state.scale);
        return ImVec2{lens.x + along.x * f + side.x * r, lens.y + along.y * f + side.y * r};
    };
    on.AddQuadFilled(at(-15, -8), at(-4, -8), at(-4, 8), at(-15, 8), state.theme.ink);
    on.AddQuadFilled(at(-4, -5), at(3, -6), at(3, 6), at(-4, 5), state.theme.ink);
}

std::string words_of_place(const rehearsal::PlaceSeen& seen) {
    std::string words = fmt::format("{:.2f} m {}, {:.2f} m {} the mark", std::abs(seen.across_m),
                                    seen.across_m < 0 ? "left" : "right", std::abs(seen.back_m),
                                    seen.back_m < 0 ? "before" : "behind");
    if (seen.axial_m <= 0)
        return words;
    words += fmt::format("\n{:.2f} m from the lens; the frame is {:.2f} × {:.2f} m here",
                         seen.range_m, seen.frame_width_m, seen.frame_height_m);
    words += fmt::format("\na face here: {} px, {}", short_number(seen.blur_px),
                         optics::to_word(seen.grade));
    if (seen.fine)
        words +=
            fmt::format("\nfine from {:.2f} m to {}", seen.fine->near_m,
                        std::isinf(seen.fine->far_m) ? std::string{"infinity"}
                                                     : fmt::format("{:.2f} m", seen.fine->far_m));
    return words;
}

void take_hold(WindowState& state, const DrawingPoint& point, double reach_m) {
    const FromAbove& drawing = state.sitting.facts().above;
    const rehearsal::Grip grip = grip_at(drawing, point, reach_m);
    Drag drag{.what = rehearsal::LensGrip{}, .id = state.sitting.new_drag(), .from = point};
    if (const auto* person = std::get_if<rehearsal::PersonGrip>(&grip)) {
        state.sitting.choose(person->person);
        const DrawingPoint& place = drawing.people[person->person].place;
        drag.what = *person;
        drag.beside = {place.x_m - point.x_m, place.y_m - point.y_m};
    } else if (std::holds_alternative<rehearsal::LensGrip>(grip)) {
        drag.beside = {drawing.lens.x_m - point.x_m, drawing.lens.y_m - point.y_m};
    } else if (std::holds_alternative<rehearsal::FocusGrip>(grip)) {
        drag.what = rehearsal::FocusGrip{};
    } else {
        state.sitting.choose(std::nullopt);
        return;
    }
    state.drag = drag;
}

/// With Ctrl: the chosen person and whoever is here take each other's places.
bool change_places(WindowState& state, const DrawingPoint& point, double reach_m) {
    const auto chosen = state.sitting.chosen();
    if (!ImGui::GetIO().KeyCtrl || !chosen)
        return false;
    const auto other = person_at(state.sitting.facts().above, point, reach_m);
    if (!other || other == chosen)
        return false;
    state.make(rehearsal::change_places(state.sitting.scene(), *chosen, *other));
    return true;
}

void pull(WindowState& state, const DrawingPoint& point) {
    const scene::Scene& scene = state.sitting.scene();
    const Drag& drag = *state.drag;
    const DrawingPoint to{point.x_m + drag.beside.x_m, point.y_m + drag.beside.y_m};
    const bool is_free = ImGui::GetIO().KeyShift;
    if (const auto* person = std::get_if<rehearsal::PersonGrip>(&drag.what))
        state.make(rehearsal::lead(scene, person->person, to.x_m, to.y_m, !is_free), drag.id);
    else if (std::holds_alternative<rehearsal::LensGrip>(drag.what))
        state.make(rehearsal::carry_camera(scene, -to.y_m, to.x_m), drag.id);
    else if (std::holds_alternative<rehearsal::FocusGrip>(drag.what)) {
        const rehearsal::Facts& facts = state.sitting.facts();
        state.make(
            rehearsal::focus_at(place_seen(scene, facts.view, facts.above.level_m, point).axial_m),
            drag.id);
    }
}

bool turn_or_lean(WindowState& state, std::size_t person) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.MouseWheel == 0 || (!io.KeyCtrl && !io.KeyShift))
        return false;
    const scene::Scene& scene = state.sitting.scene();
    const figures::Pose& pose = scene.people[person].pose;
    const int way = io.MouseWheel > 0 ? 1 : -1;
    state.make(io.KeyCtrl ? rehearsal::turn(scene, person, pose.turn_deg + way * notch_of_turn_deg)
                          : rehearsal::lean(scene, person, pose.lean_m + way * notch_of_lean_m));
    return true;
}

}  // namespace

void draw_view_from_above(WindowState& state, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const Theme& theme = state.theme;
    on.AddRectFilled(area.least, area.most, theme.paper);
    ImGui::SetCursorScreenPos(area.least);
    ImGui::InvisibleButton("from above", {area.width(), area.height()},
                           ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonRight);
    const bool hovered = ImGui::IsItemHovered();
    const bool pressed = ImGui::IsItemClicked(ImGuiMouseButton_Left);
    state.widget_rects.note_last("from above");

    DrawingScale& scale = state.above;
    if (state.above_is_fitted && !state.drag)
        scale = fitted(laid_extent(state.shown_facts().above), screen_area(area), 26 * state.scale);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const auto pointed = [&] {
        return from_laid_right(paper_from_screen(scale, {mouse.x, mouse.y}));
    };
    const double reach_m = reach_units * state.scale / scale.units_per_m;
    if (pressed && !state.flips && !change_places(state, pointed(), reach_m))
        take_hold(state, pointed(), reach_m);
    // Only while a drag of this drawing goes on: one of heads belongs to the other.
    if (state.drag && !std::holds_alternative<HeadGrip>(state.drag->what))
        pull(state, pointed());
    const FromAbove& drawing = state.shown_facts().above;  // after the pull
    const auto under = hovered ? person_at(drawing, pointed(), reach_m) : std::nullopt;
    const bool took_wheel = under && !state.flips && turn_or_lean(state, *under);
    zoom_and_pan(scale, state.above_is_fitted, hovered, !took_wheel);

    on.PushClipRect(area.least, area.most, true);
    draw_blocks(on, state, scale, drawing.risers);
    if (drawing.frame) {
        std::array<ImVec2, 4> corners{};
        for (std::size_t i = 0; i < 4; ++i)
            corners[i] = on_screen(scale, laid_right((*drawing.frame)[i]));
        on.AddQuadFilled(corners[0], corners[1], corners[2], corners[3], theme.frame_wash);
        on.AddLine(corners[0], corners[3], theme.rule, 1.5f);
        on.AddLine(corners[1], corners[2], theme.rule, 1.5f);
    }
    draw_zone(on, scale, drawing.fine, theme.fine_wash, laid_right);
    draw_zone(on, scale, drawing.crisp, theme.crisp_wash, laid_right);
    for (const rehearsal::BackdropFromAbove& backdrop : drawing.backdrops)
        on.AddLine(on_screen(scale, laid_right(backdrop.line.from)),
                   on_screen(scale, laid_right(backdrop.line.to)), theme.rule,
                   static_cast<float>(4 * state.scale));
    for (const std::array<DrawingPoint, 4>& model : drawing.models)
        on.AddQuadFilled(on_screen(scale, laid_right(model[0])),
                         on_screen(scale, laid_right(model[1])),
                         on_screen(scale, laid_right(model[2])),
                         on_screen(scale, laid_right(model[3])), theme.ground);
    draw_blocks(on, state, scale, drawing.seats);
    for (const rehearsal::RowFromAbove& row : drawing.rows)
        draw_dashes(on, on_screen(scale, laid_right(row.line.from)),
                    on_screen(scale, laid_right(row.line.to)), theme.faint_ink, 1,
                    static_cast<float>(3 * state.scale));
    if (drawing.plane_of_focus)
        on.AddLine(on_screen(scale, laid_right(drawing.plane_of_focus->from)),
                   on_screen(scale, laid_right(drawing.plane_of_focus->to)), theme.focus,
                   static_cast<float>(1.8 * state.scale));
    draw_camera(on, state, scale, drawing);

    const auto chosen = state.sitting.chosen();
    for (std::size_t i = 0; i < drawing.people.size(); ++i)
        draw_person(on, state, scale, drawing.people[i], chosen == i || under == i);
    Names names;
    std::vector<std::size_t> order = state.shown_facts().worst_first;
    std::ranges::stable_partition(order, [&](std::size_t i) { return chosen == i || under == i; });
    for (const std::size_t i : order) {
        const rehearsal::PersonFromAbove& person = drawing.people[i];
        const ImVec2 head = on_screen(scale, laid_right(person.head));
        const auto beside = static_cast<float>(
            std::max(5.0 * state.scale, person.head_half_length_m * scale.units_per_m) + 3);
        const std::string& name = state.shown_scene().people[i].name;
        names.letter(on, state, {head.x + beside, head.y - state.fonts.small->FontSize / 2}, name,
                     chosen == i ? theme.accent : theme.ink, chosen == i || under == i);
        state.widget_rects.note("person " + name, {head.x - 4, head.y - 4},
                                {head.x + 4, head.y + 4});
    }
    const ImVec2 lens = on_screen(scale, laid_right(drawing.lens));
    state.widget_rects.note("lens", {lens.x - 4, lens.y - 4}, {lens.x + 4, lens.y + 4});
    if (drawing.plane_of_focus) {
        const ImVec2 end = on_screen(scale, laid_right(drawing.plane_of_focus->from));
        state.widget_rects.note("plane of focus", {end.x - 4, end.y - 4}, {end.x + 4, end.y + 4});
    }
    draw_ruler(on, state, scale, area, laid_right(drawing.lens).x_m);
    on.PopClipRect();
    on.AddText(state.fonts.bold, state.fonts.bold->FontSize,
               {area.least.x + static_cast<float>(8 * state.scale), area.least.y + 4}, theme.ink,
               "From above");

    if (!hovered || ImGui::IsMouseDown(ImGuiMouseButton_Right))
        return;
    const rehearsal::PlaceSeen seen =
        place_seen(state.shown_scene(), state.shown_facts().view, drawing.level_m, pointed());
    ImGui::BeginTooltip();
    if (under) {
        const plan::Face& face = state.shown_facts().table.faces[*under];
        ImGui::PushFont(state.fonts.bold);
        ImGui::TextUnformatted(face.name.c_str());
        ImGui::PopFont();
        ImGui::TextUnformatted(
            fmt::format("{}; {:.2f} m from the lens", blur_words(face), face.axial_m).c_str());
        ImGui::TextDisabled("drag: along the row; with Shift: anywhere\n"
                            "Ctrl and wheel: turn; Shift and wheel: lean\n"
                            "Ctrl and click: change places with the chosen");
    } else {
        ImGui::TextUnformatted(words_of_place(seen).c_str());
    }
    ImGui::EndTooltip();
}

}  // namespace backrow::window
