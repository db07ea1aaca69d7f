#include "window/drawings/views.h"
#include "window/face_words.h"

#include "plan/faces/verdict.h"
#include "report/text/trouble_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::window {
namespace {

/// Where one face lies in the strip.
struct Tile {
    Area face;   ///< The picture …
    float foot;  ///< … and what is written below it ends here.
};

std::string margin_words(const plan::Margin& margin, Units units) {
    if (margin.front_m == 0 && margin.back_m == 0)
        return "no margin";
    constexpr LengthScale scale = LengthScale::whole_centimetres;
    return fmt::format("margin {}/{} {}", length_digits(margin.front_m, scale, units),
                       length_digits(margin.back_m, scale, units), length_unit(scale, units));
}

/// "8.4 px, measured 8.5".
std::string blur_of(const WindowState& state, std::size_t person, const plan::Face& face) {
    if (std::string trouble = report::face_trouble_words(face); !trouble.empty())
        return trouble;
    const std::string predicted = short_number(face.predicted_blur_px) + " px";
    const auto measured = state.pictures.measures.find(person);
    const bool is_measured = !state.kept.is_shown && measured != state.pictures.measures.end() &&
                             measured->second.edition == state.sitting.edition() &&
                             measured->second.blur_px;
    return is_measured ? predicted + ", measured " + short_number(*measured->second.blur_px)
                       : predicted;
}

/// A click chooses, a double click focuses. Whether the pointer is over it.
bool obey_hand(WindowState& state, const Tile& tile, std::size_t person) {
    ImGui::SetCursorScreenPos(tile.face.least);
    ImGui::PushID(static_cast<int>(person));
    if (ImGui::InvisibleButton("face", {tile.face.width(), tile.foot - tile.face.least.y}))
        state.sitting.choose(person);
    ImGui::PopID();
    const bool is_hovered = ImGui::IsItemHovered();
    if (is_hovered && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left))
        state.make(rehearsal::focus_on(state.sitting.scene(), person));
    teach(state, "This face as the camera records it, pixel for pixel. Click to choose, "
                 "double-click to focus on the nearer eye.");
    return is_hovered;
}

void draw_face(ImDrawList& on, const WindowState& state, const Area& area, std::size_t person,
               bool is_hovered) {
    const std::map<std::size_t, Hung>& faces =
        state.kept.is_shown ? state.kept.faces : state.pictures.faces;
    const Theme& theme = state.style.theme;
    on.AddRectFilled(area.least, area.most, IM_COL32(52, 54, 58, 255));
    const auto hung = faces.find(person);
    if (hung != faces.end() && !hung->second.picture.empty()) {
        on.AddImage(hung->second.picture.id(), area.least, area.most);
        // What is shown is of a moment ago: said by a veil, until the new one is there.
        if (!state.kept.is_shown && hung->second.print.edition != state.sitting.edition())
            on.AddRectFilled(area.least, area.most, with_alpha(theme.desk, 70));
    }
    // Whoever stands before a hidden face is set back: it is not the face whose name it has.
    const plan::Face& face = state.shown_facts().table.faces[person];
    if (verdict_of(face) == plan::Verdict::hidden)
        on.AddRectFilled(area.least, area.most, IM_COL32(66, 66, 66, 200));
    const bool is_chosen = state.sitting.chosen() == person;
    if (is_chosen || is_hovered)
        on.AddRect(area.least, area.most, is_chosen ? theme.accent : theme.rule, 0, 0,
                   state.style.units(2));
}

void letter_face(ImDrawList& on, const WindowState& state, const Tile& tile, std::size_t person) {
    const plan::Face& face = state.shown_facts().table.faces[person];
    const Style& style = state.style;
    const float line = ImGui::GetTextLineHeight();
    const float left = tile.face.least.x;
    const float y = tile.face.most.y + 0.25f * line;
    const auto letter = [&](ImFont* font, const ImVec2& at, ImU32 colour, const char* words) {
        on.AddText(font, font->FontSize, at, colour, words);
    };
    draw_verdict(on, {left, y}, verdict_of(face), 0.95 * style.scale);
    const float after_mark = left + style.units(27);
    on.PushClipRect({left, y}, {tile.face.most.x, tile.foot}, true);
    letter(style.fonts.bold, {after_mark, y}, style.theme.ink, face.name.c_str());
    const float after_name = after_mark + ImGui::CalcTextSize(face.name.c_str()).x * 1.12f;
    letter(style.fonts.small, {after_name + 6, y + 2}, style.theme.ink, to_word(verdict_of(face)));
    letter(style.fonts.small, {left, y + 1.15f * line}, style.theme.ink,
           blur_of(state, person, face).c_str());
    const std::vector<std::string> light = plan::words_for(face.light);
    letter(style.fonts.small, {left, y + 2.1f * line}, style.theme.faint_ink,
           (light.empty() ? margin_words(face.margin, style.lengths) : light.front()).c_str());
    on.PopClipRect();
}

}  // namespace

void draw_faces(WindowState& state, const Area& area) {
    const float words = 3.2f * ImGui::GetTextLineHeight();
    const float gap = state.style.units(8);
    const float height = std::max(40.0f, area.height() - words - 1.2f * gap);
    const float width = std::round(height * 1.3f);
    state.wanted_prints.face_width_texels = static_cast<int>(width * state.style.texels_per_unit);
    state.wanted_prints.face_height_texels = static_cast<int>(height * state.style.texels_per_unit);

    ImGui::SetCursorScreenPos(area.least);
    ImGui::BeginChild("faces", {area.width(), area.height()}, false,
                      ImGuiWindowFlags_HorizontalScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    if (ImGui::IsWindowHovered() && ImGui::GetIO().MouseWheel != 0)
        ImGui::SetScrollX(ImGui::GetScrollX() - ImGui::GetIO().MouseWheel * width);
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    float left = origin.x;
    // A copy: a double click makes other facts of another order.
    for (const std::size_t person : std::vector{state.shown_facts().worst_first}) {
        const Tile tile{.face = {{left, origin.y}, {left + width, origin.y + height}},
                        .foot = origin.y + height + words};
        const bool is_hovered = obey_hand(state, tile, person);
        state.widget_rects.note("tile " + state.shown_scene().people[person].name, tile.face.least,
                                tile.face.most);
        draw_face(on, state, tile.face, person, is_hovered);
        if (state.shows_chosen && state.sitting.chosen() == person)
            ImGui::SetScrollFromPosX(left - origin.x + width / 2 - ImGui::GetScrollX(), 0.5f);
        letter_face(on, state, tile, person);
        left = tile.face.most.x + gap;
    }
    state.shows_chosen = false;
    ImGui::SetCursorScreenPos({left, origin.y});
    ImGui::Dummy({1, 1});
    ImGui::EndChild();
}

}  // namespace backrow::window
