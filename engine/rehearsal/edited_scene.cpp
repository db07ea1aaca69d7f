#include "rehearsal/edited_scene.h"

#include "rehearsal/differences.h"

#include "scene_file/editing/edit_scene_text.h"
#include "scene_file/editing/override.h"
#include "scene_file/editing/told_values.h"
#include "scene_file/reading/read_scene.h"

#include "base/files_read.h"
#include "base/whole_files.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <set>
#include <system_error>
#include <utility>

namespace backrow::rehearsal {
namespace {

/// Older steps are forgotten: nobody undoes a thousand, and each keeps a whole scene, of which the
/// people are the most.
constexpr std::size_t most_steps = 1000;
constexpr std::size_t most_people_in_steps = 40'000;

/// Values of an earlier moment of one drag, without those that were set again just before.
void take_values_before(std::vector<std::string>& values, std::vector<std::string> earlier) {
    if (earlier == values)
        return;
    // A drag sets the same few keys at every moment; only the last of each run counts.
    if (!earlier.empty() && !values.empty() && earlier.size() >= values.size() &&
        std::equal(values.begin(), values.end(),
                   earlier.end() - static_cast<std::ptrdiff_t>(values.size()),
                   [](const auto& a, const auto& b) {
                       return scene_file::key_of(a) == scene_file::key_of(b);
                   }))
        earlier.resize(earlier.size() - values.size());
    values.insert(values.begin(), std::make_move_iterator(earlier.begin()),
                  std::make_move_iterator(earlier.end()));
}

/// What was changed from the same text, here and there, to different values.
std::vector<Clash> clashes(const std::string& before, const std::string& here,
                           const std::string& there, const std::string& path) {
    const auto was = scene_file::told_values(before, path);
    const auto ours = scene_file::told_values(here, path);
    const auto theirs = scene_file::told_values(there, path);
    std::vector<Clash> all;
    if (!was || !ours || !theirs)
        return all;
    const auto value = [](const auto& told, const std::string& key) {
        const auto found = told->find(key);
        return found == told->end() ? std::string{} : found->second;
    };
    std::set<std::string> keys;
    for (const auto* told : {&*was, &*ours, &*theirs})
        for (const auto& [key, ignored] : *told)
            keys.insert(key);
    for (const std::string& key : keys) {
        const std::string old = value(was, key), mine = value(ours, key),
                          other = value(theirs, key);
        if (mine != old && other != old && mine != other)
            all.push_back({key, mine, other});
    }
    return all;
}

std::size_t steps_kept(const scene::Scene& scene) {
    return std::clamp(most_people_in_steps / scene.people.size(), std::size_t{2}, most_steps);
}

}  // namespace

EditedScene::EditedScene(std::string path, Step first)
    : path_{std::move(path)}, saved_text_{first.text} {
    steps_.push_back(std::move(first));
}

Checked<EditedScene> EditedScene::open(const std::string& path) {
    auto text = scene_file::scene_file_text(path);
    if (!text)
        return tl::unexpected(text.error());
    auto scene = scene_file::read_scene_text(*text, path);
    if (!scene)
        return tl::unexpected(scene.error());
    return EditedScene{path, {.what = {}, .text = std::move(*text), .scene = std::move(*scene)}};
}

Checked<EditedScene> EditedScene::begin(const std::string& text, const std::string& path) {
    auto scene = scene_file::read_scene_text(text, path);
    if (!scene)
        return tl::unexpected(scene.error());
    EditedScene begun{path, {.what = {}, .text = text, .scene = std::move(*scene)}};
    begun.saved_text_.clear();
    begun.is_new_ = true;
    return begun;
}

void EditedScene::go_on_with(Step step) {
    steps_.resize(at_ + 1);
    if (saved_at_ > at_)
        saved_at_.reset();
    const bool goes_on = step.drag != 0 && at_ > 0 && steps_.back().drag == step.drag;
    if (goes_on) {
        if (saved_at_ == at_)
            saved_at_.reset();
        take_values_before(step.values, std::move(steps_.back().values));
        steps_.back() = std::move(step);
    } else {
        steps_.push_back(std::move(step));
    }
    // A drag that comes back to where it began has done nothing.
    if (goes_on && steps_.back().text == steps_[steps_.size() - 2].text)
        steps_.pop_back();
    at_ = steps_.size() - 1;
    if (const std::size_t kept = steps_kept(steps_.back().scene); steps_.size() > kept)
        forget_steps_before(steps_.size() - kept);
}

void EditedScene::forget_steps_before(std::size_t first) {
    steps_.erase(steps_.begin(), steps_.begin() + static_cast<std::ptrdiff_t>(first));
    at_ -= first;
    if (saved_at_)
        saved_at_ = *saved_at_ < first ? std::nullopt : std::optional{*saved_at_ - first};
}

void EditedScene::read_steps_anew() {
    const auto is_read = [this](Step& step) {
        auto scene = scene_file::read_scene_text(step.text, path_);
        if (scene)
            step.scene = std::move(*scene);
        return scene.has_value();
    };
    std::size_t first = at_, end = at_ + 1;
    while (first > 0 && is_read(steps_[first - 1]))
        --first;
    while (end < steps_.size() && is_read(steps_[end]))
        ++end;
    steps_.resize(end);
    forget_steps_before(first);
}

Checked<void> EditedScene::change(const std::string& what, const std::vector<std::string>& values,
                                  DragId drag) {
    auto changed = scene_file::with_values(text(), path_, values);
    if (!changed)
        return tl::unexpected(changed.error());
    return take(
        {.what = what, .text = std::move(*changed), .scene = {}, .drag = drag, .values = values});
}

Checked<void> EditedScene::take_text(const std::string& what, std::string text) {
    return take({.what = what, .text = std::move(text), .scene = {}, .is_whole_text = true});
}

Checked<void> EditedScene::take(Step step) {
    if (step.text == text())
        return {};
    auto scene = scene_file::read_scene_text(step.text, path_);
    if (!scene)
        return tl::unexpected(scene.error());
    step.scene = std::move(*scene);
    go_on_with(std::move(step));
    return {};
}

// A drag is told from where it began, whatever its last movement was.
std::string EditedScene::what_happened(std::size_t step, Units units) const {
    const Step& done = steps_[step];
    if (done.is_whole_text)
        return done.what;
    const std::vector<std::string> told = differences(steps_[step - 1].scene, done.scene, units);
    return told.size() == 1 ? told.front() : done.what;
}

std::string EditedScene::undone_next(Units units) const {
    return can_undo() ? what_happened(at_, units) : std::string{};
}

std::string EditedScene::redone_next(Units units) const {
    return can_redo() ? what_happened(at_ + 1, units) : std::string{};
}

void EditedScene::undo() noexcept {
    if (can_undo())
        --at_;
}

void EditedScene::redo() noexcept {
    if (can_redo())
        ++at_;
}

Made<void> EditedScene::save() {
    PendingFiles files;
    if (auto aside = files.add(path_, text()); !aside)
        return aside;
    if (auto kept = files.keep(); !kept)
        return kept;
    saved_text_ = text();
    saved_at_ = at_;
    is_new_ = false;
    return {};
}

Checked<Made<void>> EditedScene::save_as(const std::string& path) {
    auto scene = scene_file::read_scene_text(text(), path);
    if (!scene)
        return tl::unexpected(scene.error());
    std::error_code none;
    if (was_read(path) && !std::filesystem::equivalent(path, path_, none))
        return Made<void>{tl::make_unexpected(
            MachineFailure{path + " is part of a scene that was opened", "choose another name"})};
    const std::string before = std::exchange(path_, path);
    Made<void> saved = save();
    if (!saved) {
        path_ = before;
    } else if (path_ != before) {
        steps_[at_].scene = std::move(*scene);
        read_steps_anew();
    }
    return saved;
}

bool EditedScene::was_changed_on_disk() const {
    if (is_new_)
        return false;
    const auto now = scene_file::scene_file_text(path_);
    return now && *now != saved_text_;
}

Checked<Merged> EditedScene::merged_with_file() const {
    const auto theirs = scene_file::scene_file_text(path_);
    if (!theirs)
        return tl::unexpected(theirs.error());
    if (auto scene = scene_file::read_scene_text(*theirs, path_); !scene)
        return tl::unexpected(scene.error());
    if (!has_unsaved_changes())
        return Merged{.text = *theirs, .clashes = {}};
    const Merged either_or{.text = *theirs, .clashes = {}, .is_either_or = true};
    if (!saved_at_ || *saved_at_ >= at_)
        return either_or;
    Merged merged{.text = *theirs, .clashes = {}};
    for (std::size_t i = *saved_at_ + 1; i <= at_; ++i) {
        const Step& done = steps_[i];
        if (done.is_whole_text && done.values.empty())
            return either_or;
        auto text = scene_file::with_values(merged.text, path_, done.values);
        if (!text)
            return either_or;
        merged.text = std::move(*text);
    }
    if (!scene_file::read_scene_text(merged.text, path_))
        return either_or;
    merged.clashes = clashes(saved_text_, text(), *theirs, path_);
    return merged;
}

Checked<void> EditedScene::take_merged(const Merged& merged,
                                       const std::vector<std::string>& from_file) {
    auto theirs = scene_file::scene_file_text(path_);
    if (!theirs)
        return tl::unexpected(theirs.error());
    std::vector<std::string> values;
    for (const Clash& clash : merged.clashes)
        if (std::ranges::find(from_file, clash.key) != from_file.end() && !clash.in_file.empty())
            values.push_back(clash.key + '=' + clash.in_file);
    auto text = scene_file::with_values(merged.text, path_, values);
    if (!text)
        return tl::unexpected(text.error());
    // What was done here stays known, for the next time that somebody else changes the file.
    std::vector<std::string> done;
    for (std::size_t i = saved_at_.value_or(at_) + 1; i <= at_; ++i)
        done.insert(done.end(), steps_[i].values.begin(), steps_[i].values.end());
    done.insert(done.end(), values.begin(), values.end());
    const std::size_t before = at_;
    if (auto taken = take({.what = "Take in what the file has",
                           .text = std::move(*text),
                           .scene = {},
                           .is_whole_text = true,
                           .values = merged.is_either_or ? std::vector<std::string>{} : done});
        !taken)
        return taken;
    saved_text_ = std::move(*theirs);
    saved_at_ = has_unsaved_changes() ? before : at_;
    return {};
}

void EditedScene::overrule_file() {
    if (auto theirs = scene_file::scene_file_text(path_))
        saved_text_ = std::move(*theirs);
    saved_at_.reset();
}

}  // namespace backrow::rehearsal
