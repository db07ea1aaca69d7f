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
    constexpr double room_for_words_units = 190;
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    const float wide = window.x - state.style.units(80);
    const float high =
        std::max(state.style.units(80), window.y - state.style.units(room_for_words_units));
    const auto width_px = static_cast<float>(picture.width_px());
    const auto height_px = static_cast<float>(picture.height_px());
    const float scale = std::min(wide / width_px, high / height_px);
    return {width_px * scale, height_px * scale};
}

/// A line on a photo is seen on light and dark: paper under the accent.
std::array<std::pair<ImU32, float>, 2> strokes(const WindowState& state) {
    return {std::pair{state.style.theme.paper, state.style.units(4)},
            std::pair{state.style.theme.accent, state.style.units(1.8)}};
}

/// What is under the pointer, four times as large, in the corner that is far from it.
void draw_loupe(const WindowState& state, const PhotoOnSheet& photo, const Area& area) {
    constexpr float enlarged = 4;
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    const float side = std::min({state.style.units(130), area.width() / 3, area.height() / 2});
    const bool is_right = pointer.x < (area.least.x + area.most.x) / 2;
    const ImVec2 least{is_right ? area.most.x - side : area.least.x, area.least.y};
    const ImVec2 most{least.x + side, least.y + side};
    const ImVec2 middle{(pointer.x - area.least.x) / area.width(),
                        (pointer.y - area.least.y) / area.height()};
    const ImVec2 half{side / enlarged / 2 / area.width(), side / enlarged / 2 / area.height()};
    ImDrawList& on = *ImGui::GetWindowDrawList();
    on.AddRectFilled(least, most, state.style.theme.desk);
    on.AddImage(photo.picture.id(), least, most, {middle.x - half.x, middle.y - half.y},
                {middle.x + half.x, middle.y + half.y});
    on.AddRect(least, most, state.style.theme.ink);
    const ImVec2 centre{(least.x + most.x) / 2, (least.y + most.y) / 2};
    const float arm = state.style.units(7);
    for (const auto& [ink, width] : strokes(state)) {
        on.AddLine({centre.x - arm, centre.y}, {centre.x + arm, centre.y}, ink, width);
        on.AddLine({centre.x, centre.y - arm}, {centre.x, centre.y + arm}, ink, width);
    }
}

ImVec2 on_screen(const Area& area, const rehearsal::PicturePoint& point) {
    return {area.least.x + static_cast<float>(point.across) * area.width(),
            area.least.y + static_cast<float>(point.down) * area.width()};
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

/// Takes two points; a third begins anew.
void click_points(WindowState& state, PhotoOnSheet& photo) {
    const ImVec2 size = shown_size(state, photo.picture);
    const ImVec2 least = ImGui::GetCursorScreenPos();
    const Area area{least, {least.x + size.x, least.y + size.y}};
    ImGui::InvisibleButton("photo", size);
    state.widget_rects.note_last("photo");
    ImGui::GetWindowDrawList()->AddImage(photo.picture.id(), area.least, area.most);
    draw_points(state, photo, area);
    if (!ImGui::IsItemHovered())
        return;
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    if (ImGui::IsItemClicked()) {
        if (photo.points.size() == 2)
            photo.points.clear();
        photo.points.push_back({.across = (pointer.x - area.least.x) / area.width(),
                                .down = (pointer.y - area.least.y) / area.width()});
        state.sheets.complaint.clear();
    }
    draw_loupe(state, photo, area);
}

}  // namespace

void draw_photo_sheet(WindowState& state) {
    PhotoOnSheet& photo = *state.place.photo;
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("How large is the place?");
    ImGui::PopFont();
    ImGui::TextUnformatted("Click two points whose distance you know, as the sides of a door, "
                           "about as far away as the backdrop.");
    click_points(state, photo);
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted("They are");
    ImGui::SameLine();
    ImGui::SetNextItemWidth(state.style.units(110));
    const bool entered =
        ImGui::InputText("##apart", &photo.typed_apart, ImGuiInputTextFlags_EnterReturnsTrue);
    state.widget_rects.note_last("apart");
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
    ImGui::PushTextWrapPos(0);
    ImGui::TextColored(ImGui::ColorConvertU32ToFloat4(state.style.theme.accent), "%s",
                       state.sheets.complaint.c_str());
    ImGui::PopTextWrapPos();
}

}  // namespace backrow::window
