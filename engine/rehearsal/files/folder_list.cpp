#include "rehearsal/files/folder_list.h"

#include "base/file_endings.h"
#include "base/whole_path.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <string_view>
#include <system_error>

namespace backrow::rehearsal {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Takes a number off the front, without the noughts before it.
std::string_view take_number(std::string_view& text) {
    const auto end = std::ranges::find_if_not(text, is_digit) - text.begin();
    std::string_view number = text.substr(0, static_cast<std::size_t>(end));
    text.remove_prefix(number.size());
    number.remove_prefix(std::min(number.find_first_not_of('0'), number.size()));
    return number;
}

int lower(char c) {
    return std::tolower(static_cast<unsigned char>(c));
}

bool comes_before(std::string_view a, std::string_view b) {
    const std::string_view whole_a = a, whole_b = b;
    while (!a.empty() && !b.empty()) {
        if (is_digit(a.front()) && is_digit(b.front())) {
            const std::string_view number_a = take_number(a), number_b = take_number(b);
            if (number_a != number_b)
                return number_a.size() != number_b.size() ? number_a.size() < number_b.size()
                                                          : number_a < number_b;
            continue;
        }
        if (lower(a.front()) != lower(b.front()))
            return lower(a.front()) < lower(b.front());
        a.remove_prefix(1);
        b.remove_prefix(1);
    }
    return a.empty() != b.empty() ? a.empty() : whole_a < whole_b;
}

bool is_wanted(std::string_view name, std::span<const std::string> endings) {
    return endings.empty() || std::ranges::any_of(endings, [&](const std::string& ending) {
               return ends_in(name, ending);
           });
}

}  // namespace

FolderList list_folder(const std::string& folder, std::span<const std::string> endings) {
    namespace fs = std::filesystem;
    FolderList list{.folder = whole_path(folder)};
    std::error_code trouble, none;
    list.as_of = fs::last_write_time(list.folder, none);
    fs::directory_iterator at{list.folder, trouble};
    for (; !trouble && at != fs::directory_iterator{}; at.increment(trouble)) {
        std::string name = at->path().filename().string();
        if (name.starts_with('.'))
            continue;
        const bool is_folder = at->is_directory(none);
        if (is_folder || (is_wanted(name, endings) && at->is_regular_file(none)))
            list.entries.push_back({std::move(name), is_folder});
    }
    if (trouble)
        list.complaint = fmt::format("This folder cannot be read: {}", trouble.message());
    std::ranges::sort(list.entries, [](const FolderEntry& a, const FolderEntry& b) {
        return a.is_folder != b.is_folder ? a.is_folder : comes_before(a.name, b.name);
    });
    return list;
}

bool is_out_of_date(const FolderList& list) {
    std::error_code none;
    return std::filesystem::last_write_time(list.folder, none) != list.as_of;
}

}  // namespace backrow::rehearsal
