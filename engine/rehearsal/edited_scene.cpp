#include "rehearsal/edited_scene.h"

#include "rehearsal/differences.h"

#include "scene_file/editing/edit_scene_text.h"
#include "scene_file/reading/read_scene.h"

#include "base/files_read.h"
#include "base/whole_files.h"

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

namespace backrow::rehearsal {
namespace {

/// Older steps are forgotten: nobody undoes a thousand, and each keeps a whole scene, of which the
/// people are the most.
constexpr std::size_t most_steps = 1000;
constexpr std::size_t most_people_in_steps = 40'000;

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

void EditedScene::go_on_with(Step step) {
    steps_.resize(at_ + 1);
    const bool goes_on = step.drag != 0 && at_ > 0 && steps_.back().drag == step.drag;
    if (goes_on)
        steps_.back() = std::move(step);
    else
        steps_.push_back(std::move(step));
    // A drag that comes back to where it began has done nothing.
    if (goes_on && steps_.back().text == steps_[steps_.size() - 2].text)
        steps_.pop_back();
    if (const std::size_t kept = steps_kept(steps_.back().scene); steps_.size() > kept)
        steps_.erase(steps_.begin(), steps_.end() - static_cast<std::ptrdiff_t>(kept));
    at_ = steps_.size() - 1;
}

Checked<void> EditedScene::change(const std::string& what, const std::vector<std::string>& values,
                                  DragId drag) {
    auto changed = scene_file::with_values(text(), path_, values);
    if (!changed)
        return tl::unexpected(changed.error());
    return take({.what = what, .text = std::move(*changed), .scene = {}, .drag = drag});
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
    if (!saved)
        path_ = before;
    else
        steps_[at_].scene = std::move(*scene);
    return saved;
}

bool EditedScene::was_changed_on_disk() const {
    const auto now = scene_file::scene_file_text(path_);
    return now && *now != saved_text_;
}

Checked<void> EditedScene::reload() {
    auto now = scene_file::scene_file_text(path_);
    if (!now)
        return tl::unexpected(now.error());
    if (auto taken = take_text("Take what the file has", *now); !taken)
        return taken;
    saved_text_ = std::move(*now);
    return {};
}

}  // namespace backrow::rehearsal
