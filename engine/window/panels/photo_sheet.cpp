#include "window/commands/place_commands.h"
#include "window/panels/panels.h"

#include <imgui_stdlib.h>

#include <algorithm>
#include <array>
#include <utility>

namespace backrow::window {
namespace {

/// As large as the window has room for.
ImVec2 shown_size(const WindowState& state, const ScreenPicture& picture) {
    constexpr double room_for_words_units = 196;
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    const float wide = window.x - state.style.units(80);
    const float high =
        std::max(state.style.units(80), window.y - state.style.units(room_for_words_units));
    const auto width_px = static_cast<float>(picture.width_px());
    const auto height_px = static_cast<float>(picture.height_px());
    const float scale = std::min(wide / width_px, high / height_px);
    return {width_px * scale, height_px * scale};
}

/// As wide as the photo, or as the line below it.
float words_width(const WindowState& state, const ScreenPicture& picture) {
    return std::max(shown_size(state, picture).x, state.style.units(440));
}

/// A line on a photo is seen on light and dark: paper under the accent.
std::array<std::pair<ImU32, float>, 2> strokes(const WindowState& state) {
    return {std::pair{state.style.theme.paper, state.style.units(4)},
            std::pair{state.style.theme.accent, state.style.units(1.8)}};
}

void draw_cross(const WindowState& state, const ImVec2& centre) {
    const float arm = state.style.units(7);
    ImDrawList& on = *ImGui::GetWindowDrawList();
    for (const auto& [ink, width] : strokes(state)) {
        on.AddLine({centre.x - arm, centre.y}, {centre.x + arm, centre.y}, ink, width);
        on.AddLine({centre.x, centre.y - arm}, {centre.x, centre.y + arm}, ink, width);
    }
}

ImVec2 on_screen(const Area& area, const rehearsal::PicturePoint& point) {
    return {area.least.x + static_cast<float>(point.across) * area.width(),
            area.least.y + static_cast<float>(point.down) * area.width()};
}

/// What is there, four times as large, in the corner that is far from it.
void draw_loupe(const WindowState& state, const PhotoOnSheet& photo, const Area& area,
                const rehearsal::PicturePoint& there) {
    constexpr float enlarged = 4;
    const ImVec2 at = on_screen(area, there);
    const float side = std::min({state.style.units(130), area.width() / 3, area.height() / 2});
    const bool is_right = at.x < (area.least.x + area.most.x) / 2;
    const ImVec2 least{is_right ? area.most.x - side : area.least.x, area.least.y};
    const ImVec2 most{least.x + side, least.y + side};
    const ImVec2 middle{(at.x - area.least.x) / area.width(),
                        (at.y - area.least.y) / area.height()};
    const ImVec2 half{side / enlarged / 2 / area.width(), side / enlarged / 2 / area.height()};
    ImDrawList& on = *ImGui::GetWindowDrawList();
    on.AddRectFilled(least, most, state.style.theme.desk);
    on.AddImage(photo.picture.id(), least, most, {middle.x - half.x, middle.y - half.y},
                {middle.x + half.x, middle.y + half.y});
    on.AddRect(least, most, state.style.theme.ink);
    draw_cross(state, {(least.x + most.x) / 2, (least.y + most.y) / 2});
}

void draw_points(const WindowState& state, const PhotoOnSheet& photo, const Area& area) {
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const float arm = state.style.units(8);
    for (const auto& [ink, width] :
         {std::pair{state.style.theme.paper, 4.0}, std::pair{state.style.theme.accent, 1.8}}) {
        const float wide = state.style.units(width);
        if (photo.points.size() == 2)
            on.AddLine(on_screen(area, photo.points[0]), on_screen(area, photo.points[1]), ink,
                       wide);
        for (const rehearsal::PicturePoint& point : photo.points) {
            const ImVec2 at = on_screen(area, point);
            on.AddLine({at.x - arm, at.y - arm}, {at.x + arm, at.y + arm}, ink, wide);
            on.AddLine({at.x - arm, at.y + arm}, {at.x + arm, at.y - arm}, ink, wide);
        }
    }
}

/// Two at most; a third begins anew.
void set_point(WindowState& state, PhotoOnSheet& photo, const rehearsal::PicturePoint& point) {
    if (photo.points.size() == 2)
        photo.points.clear();
    photo.points.push_back(point);
    state.sheets.complaint.clear();
}

/// Arrows lead it, with Shift by one texel of the photo; Enter or Space sets a point there.
void lead_mark(WindowState& state, PhotoOnSheet& photo) {
    constexpr double usual_step = 0.01;  // of the photo's width
    const double width = photo.picture.width_px();
    const double lowest = photo.picture.height_px() / width;
    const double step = ImGui::GetIO().KeyShift ? 1 / width : usual_step;
    const auto is_pressed = [](ImGuiKey key) {
        return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key));
    };
    const auto way = [&](ImGuiKey more, ImGuiKey less) {
        return (is_pressed(more) ? step : 0) - (is_pressed(less) ? step : 0);
    };
    const double across = way(ImGuiKey_RightArrow, ImGuiKey_LeftArrow);
    const double down = way(ImGuiKey_DownArrow, ImGuiKey_UpArrow);
    if (!photo.mark && across == 0 && down == 0)
        return;
    const rehearsal::PicturePoint from = photo.mark.value_or(
        photo.points.empty() ? rehearsal::PicturePoint{0.5, lowest / 2} : photo.points.back());
    photo.mark = {.across = std::clamp(from.across + across, 0.0, 1.0),
                  .down = std::clamp(from.down + down, 0.0, lowest)};
    if (is_pressed(ImGuiKey_Enter) || is_pressed(ImGuiKey_KeyPadEnter) ||
        is_pressed(ImGuiKey_Space))
        set_point(state, photo, *photo.mark);
}

/// By the pointer, or by the mark while the photo has the keys.
void take_points(WindowState& state, PhotoOnSheet& photo) {
    const ImVec2 size = shown_size(state, photo.picture);
    const ImVec2 least = ImGui::GetCursorScreenPos();
    const Area area{least, {least.x + size.x, least.y + size.y}};
    ImGui::InvisibleButton("photo", size);
    const bool is_hovered = ImGui::IsItemHovered();
    const bool is_clicked = ImGui::IsItemClicked();
    state.widget_rects.note_last("photo");
    ImDrawList& on = *ImGui::GetWindowDrawList();
    on.AddImage(photo.picture.id(), area.least, area.most);
    const bool had_keys = std::exchange(photo.has_keys, ImGui::IsItemFocused());
    const ImVec2 moved = ImGui::GetIO().MouseDelta;
    if (is_clicked || moved.x != 0 || moved.y != 0)
        photo.mark.reset();
    else if (photo.has_keys && !had_keys)
        photo.mark = {0.5, 0.5 * photo.picture.height_px() / photo.picture.width_px()};
    else if (photo.has_keys)
        lead_mark(state, photo);
    draw_points(state, photo, area);
    if (photo.has_keys && photo.mark) {
        on.AddRect(area.least, area.most, state.style.theme.accent, 0, 0, state.style.units(2));
        const ImVec2 mark = on_screen(area, *photo.mark);
        draw_cross(state, mark);
        state.widget_rects.note("mark", mark, mark);
        draw_loupe(state, photo, area, *photo.mark);
    } else if (is_hovered) {
        const ImVec2 pointer = ImGui::GetIO().MousePos;
        const rehearsal::PicturePoint there{.across = (pointer.x - least.x) / size.x,
                                            .down = (pointer.y - least.y) / size.x};
        if (is_clicked)
            set_point(state, photo, there);
        draw_loupe(state, photo, area, there);
    }
}

}  // namespace

void draw_photo_sheet(WindowState& state) {
    PhotoOnSheet& photo = *state.place.photo;
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("How large is the place?");
    ImGui::PopFont();
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + words_width(state, photo.picture));
    ImGui::TextUnformatted("Click two points whose distance you know, as the sides of a door, "
                           "about as far away as the backdrop. By keys: Tab to the photo, arrows "
                           "lead a mark, with Shift finely, Enter sets a point.");
    ImGui::PopTextWrapPos();
    take_points(state, photo);
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted("They are");
    ImGui::SameLine();
    ImGui::SetNextItemWidth(state.style.units(110));
    const bool entered =
        ImGui::InputText("##apart", &photo.typed_apart, ImGuiInputTextFlags_EnterReturnsTrue);
    state.widget_rects.note_last("apart", Control::field(photo.typed_apart));
    ImGui::SameLine();
    ImGui::TextUnformatted("apart");
    ImGui::SameLine();
    const bool pressed = button(state, "Take this size",
                                "Enter does the same. As you measured it: "
                                "0.9, 90 cm, 3 ft.");
    ImGui::SameLine();
    if (button(state, "Leave it", "The size stays as it is. Esc does the same."))
        return state.sheets.close();
    if (entered || pressed)
        size_photo(state);
    if (state.sheets.complaint.empty())
        return;
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + words_width(state, photo.picture));
    ImGui::TextColored(ImGui::ColorConvertU32ToFloat4(state.style.theme.accent), "%s",
                       state.sheets.complaint.c_str());
    ImGui::PopTextWrapPos();
}

}  // namespace backrow::window
