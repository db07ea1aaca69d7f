#include "rehearsal/files/recovery.h"

#include "rehearsal/files/state_of_scene.h"

#include "scene_file/reading/read_scene.h"

#include "base/process.h"
#include "base/state_folder.h"
#include "base/whole_path.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

namespace backrow::rehearsal {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view first_line = "backrow recovery 1\n";

struct Kept {
    Process process;
    std::string scene;
    std::string text;
};

/// "backrow recovery 1", then numbers, each on a line of its own with its word; then the path and
/// the text, as long as was said.
std::string written(const Kept& kept) {
    return fmt::format("{}process {} {}\nscene {}\ntext {}\n\n{}\n{}", first_line,
                       kept.process.number, kept.process.started, kept.scene.size(),
                       kept.text.size(), kept.scene, kept.text);
}

/// Takes a word and a number off the front; false where they are not there.
template <class Number>
bool take(std::string_view& from, std::string_view word, Number& number) {
    if (!from.starts_with(word))
        return false;
    from.remove_prefix(word.size());
    const auto [end, error] = std::from_chars(from.data(), from.data() + from.size(), number);
    if (error != std::errc{} || number < 0)
        return false;
    from.remove_prefix(static_cast<std::size_t>(end - from.data()));
    return true;
}

std::optional<Kept> read(std::string_view from) {
    Kept kept;
    std::int64_t scene_bytes = 0, text_bytes = 0;
    if (!from.starts_with(first_line))
        return std::nullopt;
    from.remove_prefix(first_line.size());
    if (!take(from, "process ", kept.process.number) || !take(from, " ", kept.process.started) ||
        !take(from, "\nscene ", scene_bytes) || !take(from, "\ntext ", text_bytes) ||
        !from.starts_with("\n\n"))
        return std::nullopt;
    from.remove_prefix(2);
    const auto scene_size = static_cast<std::size_t>(scene_bytes);
    const auto text_size = static_cast<std::size_t>(text_bytes);
    if (scene_size > most_recovery_bytes || text_size > most_recovery_bytes ||
        from.size() != scene_size + 1 + text_size || from[scene_size] != '\n')
        return std::nullopt;
    kept.scene = from.substr(0, scene_size);
    kept.text = from.substr(scene_size + 1);
    return kept;
}

/// Whether the file is there and not of this run.
bool is_of_others(const std::string& path) {
    std::error_code none;
    if (!fs::exists(fs::symlink_status(path, none)))
        return false;
    const auto bytes = read_state(path, most_recovery_bytes);
    const auto kept = bytes ? read(*bytes) : std::nullopt;
    return !kept || kept->process != this_process();
}

tl::unexpected<std::vector<Problem>> refused(const std::string& file, std::string what) {
    return tl::unexpected(std::vector{Problem{
        {.file = file}, std::move(what), "it is left out; remove the file to hear no more of it"}});
}

/// "….recovery" of a scene, and beside it "…-NUMBER.recovery" of further windows on it: those that
/// are there, in order.
std::vector<std::string> files_beside(const std::string& file) {
    const fs::path whole{file};
    const std::string stem = whole.stem().string();
    std::vector<std::string> files;
    std::error_code trouble;
    fs::directory_iterator entry{whole.parent_path(), trouble};
    for (; !trouble && entry != fs::directory_iterator{}; entry.increment(trouble)) {
        const std::string name = entry->path().filename().string();
        if (name == stem + ".recovery" ||
            (name.starts_with(stem + '-') && name.ends_with(".recovery")))
            files.push_back(entry->path().string());
    }
    std::ranges::sort(files);
    return files;
}

/// The file of this run: where another window on the scene has the first, or has left it, one with
/// our number.
std::string file_of_ours(const std::string& file) {
    if (!is_of_others(file))
        return file;
    const fs::path whole{file};
    return (whole.parent_path() /
            fmt::format("{}-{}.recovery", whole.stem().string(), this_process().number))
        .string();
}

/// What an earlier run left: the first of them.
std::optional<std::string> file_left(const std::string& file) {
    const auto files = files_beside(file);
    const auto left = std::ranges::find_if_not(files, [](const std::string& each) {
        const auto bytes = read_state(each, most_recovery_bytes);
        const auto kept = bytes ? read(*bytes) : std::nullopt;
        return kept && still_runs(kept->process);
    });
    return left == files.end() ? std::nullopt : std::optional{*left};
}

Made<void> write(const std::string& file, const EditedScene& edited) {
    return write_state(file, written({.process = this_process(),
                                      .scene = whole_path(edited.path()),
                                      .text = edited.text()}));
}

}  // namespace

Made<std::string> recovery_file(const std::string& scene_path) {
    const auto file = state_of_scene(scene_path, ".recovery");
    if (!file)
        return tl::make_unexpected(
            MachineFailure{"there is no folder in which to keep unsaved changes safe",
                           "set HOME or XDG_STATE_HOME, or save often"});
    return file->string();
}

Checked<std::optional<std::string>> left_behind(const EditedScene& edited) {
    const auto first = recovery_file(edited.path());
    const auto file = first ? file_left(*first) : std::nullopt;
    if (!file)
        return std::nullopt;
    const auto bytes = read_state(*file, most_recovery_bytes);
    if (!bytes)
        return refused(*file, "unsaved changes of an earlier run cannot be read");
    if (bytes->size() > most_recovery_bytes)
        return refused(*file, fmt::format("unsaved changes of an earlier run take more than {} MB",
                                          most_recovery_bytes >> 20));
    auto kept = read(*bytes);
    if (!kept)
        return refused(*file, "unsaved changes of an earlier run are damaged");
    if (kept->scene != whole_path(edited.path()))
        return refused(*file, "unsaved changes of an earlier run are of another scene");
    if (kept->text == edited.text())
        return std::nullopt;
    if (const auto scene = scene_file::read_scene_text(kept->text, edited.path()); !scene)
        return refused(*file, fmt::format("unsaved changes of an earlier run are no scene: {}",
                                          scene.error().front().what));
    return std::move(kept->text);
}

std::optional<LeftScene> left_scene() {
    const auto folder = state_folder();
    std::error_code trouble;
    fs::directory_iterator entry{folder.value_or(fs::path{}), trouble};
    std::vector<fs::path> files;
    for (; !trouble && entry != fs::directory_iterator{}; entry.increment(trouble))
        if (entry->path().extension() == ".recovery")
            files.push_back(entry->path());
    std::ranges::sort(files);
    for (const fs::path& file : files) {
        const auto bytes = read_state(file, most_recovery_bytes);
        auto kept = bytes ? read(*bytes) : std::nullopt;
        std::error_code none;
        if (kept && !still_runs(kept->process) && !fs::exists(kept->scene, none) &&
            scene_file::read_scene_text(kept->text, kept->scene))
            return LeftScene{.path = std::move(kept->scene), .text = std::move(kept->text)};
    }
    return std::nullopt;
}

void forget_left_behind(const std::string& scene_path) {
    const auto first = recovery_file(scene_path);
    std::error_code ignored;
    if (const auto file = first ? file_left(*first) : std::nullopt)
        fs::remove(*file, ignored);
}

Made<void> Recovery::follow(const EditedScene& edited) {
    if (!edited.has_unsaved_changes()) {
        end();
        return {};
    }
    if (path_ == edited.path() && text_ == edited.text())
        return {};
    path_ = edited.path();
    text_ = edited.text();
    const auto first = recovery_file(path_);
    const std::string file = first ? file_of_ours(*first) : std::string{};
    // Saved elsewhere in between, the scene has another file.
    std::error_code ignored;
    if (!file_.empty() && file_ != file)
        fs::remove(file_, ignored);
    file_.clear();
    const Made<void> done =
        first ? write(file, edited) : Made<void>{tl::make_unexpected(first.error())};
    if (!done)
        return std::exchange(has_told_, true) ? Made<void>{} : done;
    file_ = file;
    has_told_ = false;
    return {};
}

void Recovery::end() noexcept {
    std::error_code ignored;
    if (!file_.empty())
        fs::remove(file_, ignored);
    file_.clear();
    path_.clear();
    text_.clear();
}

}  // namespace backrow::rehearsal
