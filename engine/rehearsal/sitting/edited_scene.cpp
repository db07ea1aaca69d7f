#include "rehearsal/sitting/edited_scene.h"

#include "rehearsal/told/differences.h"

#include "scene_file/editing/edit_scene_text.h"
#include "scene_file/editing/override.h"
#include "scene_file/editing/people_steps.h"
#include "scene_file/editing/told_values.h"
#include "scene_file/reading/read_scene.h"

#include "base/files_read.h"
#include "base/whole_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>
#include <set>
#include <string_view>
#include <system_error>
#include <utility>

namespace backrow::rehearsal {
namespace {

/// Older steps are forgotten: nobody undoes a thousand, and each keeps a whole scene, of which the
/// people are the most.
constexpr std::size_t most_steps = 1000;
constexpr std::size_t most_people_in_steps = 40'000;

using Values = std::vector<std::string>;

bool sets_people(const Values& values) {
    return std::ranges::any_of(values, [](const std::string& value) {
        const auto override = scene_file::take_apart(value);
        return override && scene_file::changes_people(*override);
    });
}

bool sets(const Values& values, std::string_view key) {
    return std::ranges::find(values, key, scene_file::key_of) != values.end();
}

/// A further moment of a drag, which sets the same few keys again and again: only the last counts.
/// Where people change places rows may come and go, so that keys mean others from then on.
void add_moment(std::vector<Values>& changes, Values moment) {
    if (changes.empty() || sets_people(changes.back()) || sets_people(moment)) {
        changes.push_back(std::move(moment));
        return;
    }
    Values& last = changes.back();
    std::erase_if(
        last, [&](const std::string& value) { return sets(moment, scene_file::key_of(value)); });
    std::ranges::move(moment, std::back_inserter(last));
}

/// Four texts of one scene, by their values.
struct Sides {
    std::map<std::string, std::string> before, here, there, both;

    [[nodiscard]] static std::optional<Sides> of(const std::string& before, const std::string& here,
                                                 const Merged& merged, const std::string& path) {
        auto was = scene_file::told_values(before, path);
        auto ours = scene_file::told_values(here, path);
        auto theirs = scene_file::told_values(merged.file_text, path);
        auto both = scene_file::told_values(merged.text, path);
        if (!was || !ours || !theirs || !both)
            return std::nullopt;
        return Sides{std::move(*was), std::move(*ours), std::move(*theirs), std::move(*both)};
    }
};

/// Where the file's changes did not come through: what was set here and is as it was before gets
/// the file's value again, whatever else was changed here as well is a clash.
struct Unsettled {
    Values given_back;
    std::vector<Clash> clashes;
};

Unsettled unsettled(const Sides& sides, const Values& set_here) {
    const auto value = [](const auto& told, const std::string& key) {
        const auto found = told.find(key);
        return found == told.end() ? std::string{} : found->second;
    };
    std::set<std::string> keys;
    for (const auto* told : {&sides.before, &sides.here, &sides.there, &sides.both})
        for (const auto& [key, ignored] : *told)
            keys.insert(key);
    Unsettled all;
    for (const std::string& key : keys) {
        const std::string old = value(sides.before, key), mine = value(sides.here, key),
                          other = value(sides.there, key), now = value(sides.both, key);
        if (other == old || now == other)
            continue;
        if (mine != old)
            all.clashes.push_back({key, now, other});
        else if (sets(set_here, key) && !other.empty())
            all.given_back.push_back(fmt::format("{}={}", key, other));
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
    if (way_ && way_->since > at_)
        way_.reset();
    const bool goes_on = step.drag != 0 && at_ > 0 && steps_.back().drag == step.drag;
    if (goes_on) {
        if (way_ && way_->since == at_)
            way_.reset();
        std::vector<Values> moments = std::move(*steps_.back().changes);
        for (Values& moment : *step.changes)
            add_moment(moments, std::move(moment));
        step.changes = std::move(moments);
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
    if (way_ && way_->from < first)
        way_.reset();
    else if (way_)
        way_ = Way{.from = way_->from - first, .since = way_->since - first};
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
    return take({.what = what,
                 .text = std::move(*changed),
                 .scene = {},
                 .drag = drag,
                 .changes = std::vector<Values>{values}});
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
    way_ = Way{.from = at_, .since = at_};
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
    const Merged of_file{.text = *theirs, .clashes = {}, .file_text = *theirs};
    if (!has_unsaved_changes())
        return of_file;
    Merged either_or = of_file;
    either_or.is_either_or = true;
    if (!way_ || way_->since > at_)
        return either_or;
    Merged merged = of_file;
    Values set_here;
    for (std::size_t i = way_->from + 1; i <= at_; ++i) {
        if (!steps_[i].changes)
            return either_or;
        for (const Values& values : *steps_[i].changes) {
            auto text = scene_file::with_values(std::move(merged.text), path_, values);
            if (!text)
                return either_or;
            merged.text = std::move(*text);
            set_here.insert(set_here.end(), values.begin(), values.end());
        }
    }
    const auto sides = Sides::of(saved_text_, text(), merged, path_);
    if (!sides)
        return either_or;
    Unsettled left = unsettled(*sides, set_here);
    auto text = scene_file::with_values(std::move(merged.text), path_, left.given_back);
    if (!text || !scene_file::read_scene_text(*text, path_))
        return either_or;
    merged.text = std::move(*text);
    merged.clashes = std::move(left.clashes);
    return merged;
}

Checked<void> EditedScene::take_merged(const Merged& merged,
                                       const std::vector<std::string>& from_file) {
    Values values;
    for (const Clash& clash : merged.clashes)
        if (std::ranges::find(from_file, clash.key) != from_file.end() && !clash.in_file.empty())
            values.push_back(fmt::format("{}={}", clash.key, clash.in_file));
    auto text = scene_file::with_values(merged.text, path_, values);
    if (!text)
        return tl::unexpected(text.error());
    Step step{.what = "Take in what the file has",
              .text = std::move(*text),
              .scene = {},
              .is_whole_text = true};
    // What was done here stays known, for the next time that somebody else changes the file.
    if (!merged.is_either_or)
        step.changes = std::vector<Values>{std::move(values)};
    if (auto taken = take(std::move(step)); !taken)
        return taken;
    saved_text_ = merged.file_text;
    if (!has_unsaved_changes())
        way_ = Way{.from = at_, .since = at_};
    else if (way_ && !merged.is_either_or)
        way_->since = at_;
    else
        way_.reset();
    return {};
}

void EditedScene::overrule_file() {
    if (auto theirs = scene_file::scene_file_text(path_))
        saved_text_ = std::move(*theirs);
    way_.reset();
}

}  // namespace backrow::rehearsal
