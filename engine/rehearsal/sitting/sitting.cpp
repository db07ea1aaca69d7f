#include "rehearsal/sitting/sitting.h"

#include "scene/index_of.h"

#include <algorithm>
#include <utility>

namespace backrow::rehearsal {

Sitting::Sitting(EditedScene edited) : edited_{std::move(edited)} {
    follow();
}

Checked<Sitting> Sitting::open(const std::string& path) {
    auto edited = EditedScene::open(path);
    if (!edited)
        return tl::unexpected(edited.error());
    return Sitting{std::move(*edited)};
}

Checked<Sitting> Sitting::begin(const std::string& text, const std::string& path) {
    auto edited = EditedScene::begin(text, path);
    if (!edited)
        return tl::unexpected(edited.error());
    return Sitting{std::move(*edited)};
}

void Sitting::follow() {
    const bool same_models =
        scene_ && std::ranges::equal(scene_->models, edited_.scene().models, {},
                                     &scene::Model::file, &scene::Model::file);
    std::vector<std::string> names;
    for (const std::size_t person : all_chosen_)
        names.push_back(scene_->people[person].name);
    auto scene = std::make_shared<scene::Scene>(edited_.scene());
    // The picture tells of models that cannot be read; without them the rest can be rehearsed.
    (void)shapes_.give(*scene);
    scene_ = std::move(scene);
    if (!same_models)
        outlines_ = plan::outlines_of(scene_->models);
    facts_ = facts_of(*scene_, outlines_);
    ++edition_;
    all_chosen_.clear();
    for (const std::string& name : names)
        if (const auto still = index_of(*scene_, name))
            all_chosen_.push_back(*still);
}

void Sitting::make(const Change& change, DragId drag) {
    complaint_.clear();
    if (change.values.empty())
        return;
    const std::string before = edited_.text();
    if (const auto made = edited_.change(change.what, change.values, drag); !made)
        complaint_ = to_line(made.error().front());
    else if (edited_.text() != before)
        follow();
}

void Sitting::undo() {
    if (!edited_.can_undo())
        return;
    complaint_.clear();
    edited_.undo();
    follow();
}

void Sitting::redo() {
    if (!edited_.can_redo())
        return;
    complaint_.clear();
    edited_.redo();
    follow();
}

Checked<void> Sitting::take_merged(const Merged& merged,
                                   const std::vector<std::string>& from_file) {
    auto taken = edited_.take_merged(merged, from_file);
    if (taken)
        follow();
    return taken;
}

void Sitting::take_text(const std::string& what, std::string text) {
    complaint_.clear();
    if (const auto taken = edited_.take_text(what, std::move(text)); !taken)
        complaint_ = to_line(taken.error().front());
    else
        follow();
}

void Sitting::exchange(TwoStates& two) {
    complaint_.clear();
    if (const auto exchanged = two.exchange(edited_); !exchanged)
        complaint_ = to_line(exchanged.error().front());
    else
        follow();
}

Made<void> Sitting::save() {
    return edited_.save();
}

Checked<Made<void>> Sitting::save_as(const std::string& path) {
    auto saved = edited_.save_as(path);
    if (saved && *saved)
        follow();
    return saved;
}

bool Sitting::is_chosen(std::size_t person) const {
    return std::ranges::find(all_chosen_, person) != all_chosen_.end();
}

void Sitting::choose(std::optional<std::size_t> person) {
    all_chosen_.clear();
    if (person)
        all_chosen_.push_back(*person);
}

void Sitting::choose_also(std::size_t person) {
    if (std::erase(all_chosen_, person) == 0)
        all_chosen_.push_back(person);
}

void Sitting::choose_next(int steps) {
    const std::vector<std::size_t>& order = facts_.worst_first;
    const auto count = static_cast<int>(order.size());
    if (all_chosen_.empty()) {
        choose(steps > 0 ? order.front() : order.back());
        return;
    }
    const auto at = static_cast<int>(std::ranges::find(order, *chosen()) - order.begin());
    choose(order[static_cast<std::size_t>(((at + steps) % count + count) % count)]);
}

}  // namespace backrow::rehearsal
