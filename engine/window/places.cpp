#include "window/places.h"

#include "base/whole_files.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace backrow::window {

void Places::note(const std::string& name, const ImVec2& least, const ImVec2& most) {
    if (!path_.empty())
        places_.push_back({name, least, most});
}

void Places::note_last(const std::string& name) {
    note(name, ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
}

Made<void> Places::end(const Standing& standing) {
    if (path_.empty() || is_moving_)
        return {};
    nlohmann::ordered_json file;
    file["edition"] = standing.edition;
    file["settled"] = standing.is_settled;
    file["undo"] = standing.undo;
    file["chosen"] = standing.chosen;
    file["complaint"] = standing.complaint;
    file["notice"] = standing.notice;
    file["sheet"] = standing.sheet;
    file["holding"] = standing.is_holding;
    file["typing"] = standing.is_typing;
    file["unsaved"] = standing.has_unsaved_changes;
    file["changed_on_disk"] = standing.was_changed_on_disk;
    file["saving_picture"] = standing.is_saving_picture;
    file["dark"] = standing.is_dark;
    file["picture_samples"] = standing.picture_samples;
    file["first_answer_ms"] = std::round(standing.first_answer_ms * 10) / 10;
    file["drag_pictures_per_s"] = std::round(standing.drag_pictures_per_s * 10) / 10;
    for (const NamedPlace& place : places_)
        file["places"][place.name] = {place.least.x, place.least.y, place.most.x, place.most.y};
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
