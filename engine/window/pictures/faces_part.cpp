#include "window/drawings/views.h"
#include "window/face_words.h"
#include "window/panels/panels.h"

#include "plan/faces/verdict.h"
#include "report/text/trouble_words.h"
#include "scene/rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <variant>

namespace backrow::window {
namespace {

/// Where one face lies.
struct Tile {
    Area face;   ///< The picture …
    float foot;  ///< … and what is written below it ends here.
};

/// How large tiles are, and how far from each other.
struct TileSize {
    float width = 0;
    float height = 0;  ///< Of the face.
    float words = 0;   ///< Height of what is written below it.
    float gap = 0;
};

/// As large as lets everybody be seen at once, within limits; beyond them the part scrolls.
TileSize tile_size(const Area& area, const std::vector<std::vector<std::size_t>>& rows,
                   const Style& style) {
    constexpr double least_height_units = 60;
    constexpr double least_width_units = 92;
    constexpr float widest_shape = 2.0f;
    std::size_t longest = 1;
    for (const auto& row : rows)
        longest = std::max(longest, row.size());
    TileSize size{.words = 2.3f * ImGui::GetTextLineHeight(), .gap = style.units(8)};
    const float bar = ImGui::GetStyle().ScrollbarSize;
    const float each_row = area.height() / static_cast<float>(rows.size());
    size.height =
        std::max(style.units(least_height_units), each_row - size.words - size.gap - bar / 2);
    const float each = (area.width() - bar) / static_cast<float>(longest) - size.gap;
    size.width =
        std::floor(std::clamp(each, style.units(least_width_units), widest_shape * size.height));
    size.height = std::round(size.height);
    return size;
}

/// "8.4 px (8.5)".
std::string blur_of(const WindowState& state, std::size_t person, const plan::Face& face) {
    if (std::string trouble = report::face_trouble_words(face); !trouble.empty())
        return trouble;
    const std::string predicted = short_number(face.predicted_blur_px) + " px";
    const auto measured = state.pictures.measures.find(person);
    const bool is_measured = !state.kept.is_shown && measured != state.pictures.measures.end() &&
                             measured->second.edition == state.sitting.edition() &&
                             measured->second.blur_px;
    return is_measured ? fmt::format("{} ({})", predicted, short_number(*measured->second.blur_px))
                       : predicted;
}

/// A click chooses, a double click focuses. Whether the pointer is over it.
bool obey_hand(WindowState& state, const Tile& tile, std::size_t person) {
    ImGui::SetCursorScreenPos(tile.face.least);
    ImGui::PushID(static_cast<int>(person));
    if (ImGui::InvisibleButton("face", {tile.face.width(), tile.foot - tile.face.least.y}))
        ImGui::GetIO().KeyCtrl ? state.sitting.choose_also(person) : state.sitting.choose(person);
    ImGui::PopID();
    const bool is_hovered = ImGui::IsItemHovered();
    if (is_hovered && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left))
        state.make(rehearsal::focus_on(state.sitting.scene(), person));
    teach(state,
          "This face as the camera records it, pixel for pixel; the blur as predicted, and in "
          "brackets as measured. Click to choose, double-click to focus on the nearer eye.");
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
    const bool is_chosen = state.sitting.is_chosen(person);
    if (is_chosen || is_hovered)
        on.AddRect(area.least, area.most, is_chosen ? theme.accent : theme.rule, 0, 0,
                   state.style.units(2));
}

void letter_face(ImDrawList& on, const WindowState& state, const Tile& tile, std::size_t person) {
    const rehearsal::Facts& facts = state.shown_facts();
    const plan::Face& face = facts.table.faces[person];
    const Style& style = state.style;
    const float line = ImGui::GetTextLineHeight();
    const float left = tile.face.least.x;
    const float y = tile.face.most.y + 0.15f * line;
    const bool is_worst = facts.worst_first.front() == person;
    const auto letter = [&](ImFont* font, const ImVec2& at, ImU32 colour,
                            const std::string& words) {
        ImGui::PushFont(font);
        on.AddText(at, colour, cut_to(words, tile.face.most.x - at.x).c_str());
        ImGui::PopFont();
    };
    draw_verdict(on, {left, y}, verdict_of(face), 0.95 * style.scale);
    letter(style.fonts.bold, {left + style.units(27), y}, style.theme.ink, face.name);
    const std::vector<std::string> light = plan::words_for(face.light);
    const std::string below = light.empty() ? blur_of(state, person, face) : light.front();
    letter(style.fonts.small, {left, y + 1.1f * line}, style.theme.ink, below);
    if (!is_worst)
        return;
    ImFont& font = *style.fonts.small;
    const float pad = style.units(3);
    const ImVec2 size = font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, "worst");
    on.AddRectFilled(tile.face.least, {left + size.x + 2 * pad, tile.face.least.y + size.y + pad},
                     style.theme.accent);
    letter(&font, {left + pad, tile.face.least.y + pad / 2}, style.theme.paper, "worst");
}

void draw_tile(WindowState& state, ImDrawList& on, const Tile& tile, std::size_t person) {
    const bool is_hovered = obey_hand(state, tile, person);
    const plan::Face& shown = state.shown_facts().table.faces[person];
    state.widget_rects.note("tile " + shown.name, tile.face.least, tile.face.most,
                            Control{.role = "face",
                                    .value = blur_words(shown),
                                    .is_on = state.sitting.is_chosen(person)});
    draw_face(on, state, tile.face, person, is_hovered);
    const auto* focused = std::get_if<scene::FocusOnPerson>(&state.shown_scene().focus);
    if (focused != nullptr && focused->name == state.shown_scene().people[person].name)
        draw_focus_mark(on, state.style.theme, (tile.face.least.y + tile.face.most.y) / 2,
                        tile.face.least.x + state.style.units(9),
                        tile.face.most.x - state.style.units(9), state.style.units(9),
                        state.style.scale);
    letter_face(on, state, tile, person);
}

}  // namespace

void draw_faces(WindowState& state, const Area& area) {
    // A double click makes another scene: drawn is what was there before.
    const auto rows = scene::as_they_stand(state.shown_scene(), state.shown_facts().view);
    const TileSize size = tile_size(area, rows, state.style);
    state.wanted_prints.face_width_texels =
        static_cast<int>(size.width * state.style.texels_per_unit);
    state.wanted_prints.face_height_texels =
        static_cast<int>(size.height * state.style.texels_per_unit);

    ImGui::SetCursorScreenPos(area.least);
    ImGui::BeginChild("faces", {area.width(), area.height()}, false,
                      ImGuiWindowFlags_HorizontalScrollbar);
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    float most_x = origin.x;
    float top = origin.y;
    for (const std::vector<std::size_t>& row : rows) {
        const float row_width = static_cast<float>(row.size()) * (size.width + size.gap);
        // Rows stand in the middle before each other, as in the picture.
        float left = origin.x + std::max(0.0f, std::floor((area.width() - row_width) / 2));
        for (const std::size_t person : row) {
            if (state.sitting.scene().people.size() <= person)
                break;
            const Tile tile{.face = {{left, top}, {left + size.width, top + size.height}},
                            .foot = top + size.height + size.words};
            draw_tile(state, on, tile, person);
            if (state.shows_chosen && state.sitting.chosen() == person) {
                ImGui::SetScrollFromPosX(left - origin.x + size.width / 2 - ImGui::GetScrollX(),
                                         0.5f);
                ImGui::SetScrollFromPosY(top - origin.y + size.height / 2 - ImGui::GetScrollY(),
                                         0.5f);
            }
            left = tile.face.most.x + size.gap;
        }
        most_x = std::max(most_x, left);
        top += size.height + size.words + size.gap / 2;
    }
    state.shows_chosen = false;
    ImGui::SetCursorScreenPos({most_x, top - size.gap});
    ImGui::Dummy({1, 1});
    ImGui::EndChild();
}

}  // namespace backrow::window
