#include "window/widget_rects.h"

#include "base/whole_files.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace backrow::window {

// Pixels of something that can be pointed at.
constexpr float fewest_seen = 6;

void WidgetRects::note(const std::string& name, const ImVec2& least, const ImVec2& most,
                       std::optional<Control> control) {
    if (path_.empty())
        return;
    rects_.push_back({name, least, most});
    if (control)
        controls_.push_back({name, std::move(*control)});
}

void WidgetRects::note_last(const std::string& name, Control control) {
    const ImVec2 least = ImGui::GetItemRectMin();
    const ImVec2 most = ImGui::GetItemRectMax();
    // Of what its part cuts off, the hand can point at no more than is left.
    const ImDrawList& on = *ImGui::GetWindowDrawList();
    const ImVec2 from{std::max(least.x, on.GetClipRectMin().x),
                      std::max(least.y, on.GetClipRectMin().y)};
    const ImVec2 to{std::min(most.x, on.GetClipRectMax().x),
                    std::min(most.y, on.GetClipRectMax().y)};
    const auto is_enough = [](float seen, float all) { return seen >= std::min(all, fewest_seen); };
    if (is_enough(to.x - from.x, most.x - least.x) && is_enough(to.y - from.y, most.y - least.y))
        note(name, from, to, std::move(control));
    if (ImGui::IsItemFocused())
        focused_ = name;
    ring.note_last();
}

void WidgetRects::note_part(const std::string& name, std::size_t first) {
    if (path_.empty())
        return;
    const ImVec2 least = ImGui::GetWindowPos();
    const ImVec2 size = ImGui::GetWindowSize();
    // The toolkit knows how much a part holds only after it has drawn it; it then moves what stays
    // in the middle, and makes room for the bar that has become needed.
    const Extent extent{.beyond = ImGui::GetScrollMaxX(),
                        .below = ImGui::GetScrollMaxY(),
                        .end = ImGui::GetCursorPosY()};
    if (ImGui::IsWindowAppearing() || extent != std::exchange(extents_[name], extent))
        is_moving_ = true;
    parts_.push_back({.name = name,
                      .least = least,
                      .most = {least.x + size.x, least.y + size.y},
                      .above = ImGui::GetScrollY(),
                      .below = extent.below - ImGui::GetScrollY(),
                      .beyond = extent.beyond,
                      .first = first,
                      .end = rects_.size()});
}

Made<void> WidgetRects::end(const Status& status) {
    if (path_.empty() || is_moving_)
        return {};
    nlohmann::ordered_json file;
    file["edition"] = status.edition;
    file["settled"] = status.is_settled;
    file["undo"] = status.undo;
    file["chosen"] = status.chosen;
    file["complaint"] = status.complaint;
    file["notice"] = status.notice;
    file["failure"] = status.failure;
    file["panel"] = status.panel;
    file["sheet"] = status.sheet;
    file["holding"] = status.is_holding;
    file["typing"] = status.is_typing;
    file["walking"] = status.is_walking;
    file["has_keys"] = focused_;
    file["unsaved"] = status.has_unsaved_changes;
    file["changed_on_disk"] = status.was_changed_on_disk;
    file["giving_away"] = status.is_giving_away;
    file["dark"] = status.is_dark;
    file["picture_samples"] = status.picture_samples;
    file["first_answer_ms"] = std::round(status.first_answer_ms * 10) / 10;
    file["drag_pictures_per_s"] = std::round(status.drag_pictures_per_s * 10) / 10;
    for (const NamedRect& rect : rects_)
        file["places"][rect.name] = {rect.least.x, rect.least.y, rect.most.x, rect.most.y};
    for (const auto& [name, control] : controls_) {
        nlohmann::ordered_json& told = file["controls"][name];
        told["role"] = control.role;
        if (!control.value.empty())
            told["value"] = control.value;
        if (control.is_on)
            told["on"] = *control.is_on;
        if (control.is_disabled)
            told["disabled"] = true;
    }
    for (const NamedPart& part : parts_) {
        nlohmann::ordered_json& told = file["parts"][part.name];
        told["box"] = {part.least.x, part.least.y, part.most.x, part.most.y};
        told["above"] = part.above;
        told["below"] = part.below;
        told["beyond"] = part.beyond;
        for (std::size_t i = part.first; i < part.end; ++i)
            told["holds"].push_back(rects_[i].name);
    }
    std::string text = file.dump(1) + '\n';
    if (text == written_)
        return {};
    PendingFiles files;
    if (auto aside = files.add(path_, text); !aside)
        return aside;
    if (auto kept = files.keep(); !kept)
        return kept;
    written_ = std::move(text);
    return {};
}

}  // namespace backrow::window
