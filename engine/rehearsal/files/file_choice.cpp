#include "rehearsal/files/file_choice.h"

#include "base/missing_folder.h"
#include "base/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>
#include <utility>

namespace backrow::rehearsal {
namespace {

namespace fs = std::filesystem;

bool is_folder(const fs::path& path) {
    std::error_code none;
    return fs::is_directory(path, none);
}

/// Where a typed path leads from this folder.
fs::path led_from(const std::string& folder, const std::string& typed) {
    const char* home = std::getenv("HOME");
    if (home != nullptr && (typed == "~" || typed.starts_with("~/")))
        return fs::path{home} / typed.substr(std::min<std::size_t>(2, typed.size()));
    return fs::path{folder} / typed;
}

/// ASCII letters without regard to capitals.
char32_t folded(char32_t letter) {
    return letter >= U'A' && letter <= U'Z' ? letter + (U'a' - U'A') : letter;
}

bool begins_with(const std::string& name, char32_t letter) {
    const std::vector<char32_t> letters = code_points(std::string_view{name}.substr(0, 4));
    return !letters.empty() && folded(letters.front()) == folded(letter);
}

}  // namespace

FileChoice::FileChoice(ChoiceOf of, std::vector<std::string> endings, const std::string& start)
    : of_{of}, endings_{std::move(endings)} {
    const fs::path path{start};
    if (is_folder(path)) {
        go_to(start);
        return;
    }
    go_to(path.has_parent_path() ? path.parent_path().string() : ".");
    typed_ = path.filename().string();
}

void FileChoice::look_into(const std::string& folder) {
    list_ = list_folder(folder, endings_);
    if (of_ == ChoiceOf::folder)
        std::erase_if(list_.entries, [](const FolderEntry& entry) { return !entry.is_folder; });
}

void FileChoice::type(std::string text) {
    typed_ = std::move(text);
    marked_.reset();
    complaint_.clear();
    to_replace_.clear();
}

void FileChoice::mark(std::size_t entry) {
    const bool is_file = !list_.entries[entry].is_folder;
    type(is_file ? list_.entries[entry].name : typed_);
    marked_ = entry;
}

void FileChoice::step(int entries) {
    const auto count = static_cast<long>(list_.entries.size());
    if (count == 0)
        return;
    const long from = marked_ ? static_cast<long>(*marked_) : entries > 0 ? -1 : count;
    mark(static_cast<std::size_t>(std::clamp(from + entries, 0L, count - 1)));
}

void FileChoice::find(char32_t letter) {
    const std::size_t count = list_.entries.size();
    const std::size_t from = marked_ ? *marked_ + 1 : 0;
    for (std::size_t i = 0; i < count; ++i)
        if (const std::size_t entry = (from + i) % count;
            begins_with(list_.entries[entry].name, letter))
            return mark(entry);
}

void FileChoice::go_to(const std::string& folder) {
    look_into(folder);
    type(of_ == ChoiceOf::file_to_write ? typed_ : std::string{});
}

void FileChoice::go_up() {
    const fs::path here{list_.folder};
    go_to(here.parent_path().string());
    const auto left = std::ranges::find(list_.entries, FolderEntry{here.filename().string(), true});
    if (left != list_.entries.end())
        mark(static_cast<std::size_t>(left - list_.entries.begin()));
}

void FileChoice::refresh() {
    if (!is_out_of_date(list_))
        return;
    const std::string name = marked_ ? list_.entries[*marked_].name : std::string{};
    look_into(std::string{list_.folder});
    const auto again = std::ranges::find(list_.entries, name, &FolderEntry::name);
    marked_ = again != list_.entries.end()
                  ? std::optional{static_cast<std::size_t>(again - list_.entries.begin())}
                  : std::nullopt;
}

std::optional<std::string> FileChoice::enter() {
    if (marked_ && list_.entries[*marked_].is_folder) {
        go_to((fs::path{list_.folder} / list_.entries[*marked_].name).string());
        return std::nullopt;
    }
    if (typed_.empty()) {
        if (of_ == ChoiceOf::folder && list_.complaint.empty())
            return list_.folder;
        complaint_ = "Type a name, or choose one from the list.";
        return std::nullopt;
    }
    const fs::path path = led_from(list_.folder, typed_);
    if (is_folder(path)) {
        typed_.clear();
        go_to(path.string());
        return std::nullopt;
    }
    if (of_ == ChoiceOf::folder) {
        complaint_ = fmt::format("There is no folder {}", path.string());
        return std::nullopt;
    }
    return enter_file(path.string());
}

std::optional<std::string> FileChoice::enter_file(const std::string& path) {
    if (of_ == ChoiceOf::file_to_read)
        return path;
    fs::path place{path};
    if (!place.has_extension() && !endings_.empty())
        place += endings_.front();
    if (const fs::path folder = missing_folder(place); !folder.empty()) {
        complaint_ = fmt::format("There is no folder {}", folder.string());
        return std::nullopt;
    }
    std::error_code none;
    if (fs::exists(place, none) && to_replace_ != place.string()) {
        to_replace_ = place.string();
        complaint_ = fmt::format("{} is there already.", place.filename().string());
        return std::nullopt;
    }
    return place.string();
}

}  // namespace backrow::rehearsal
