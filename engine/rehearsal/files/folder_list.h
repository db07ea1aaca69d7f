#pragma once

// What lies in a folder, as somebody looks for a file there.

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace backrow::rehearsal {

struct FolderEntry {
    std::string name;
    bool is_folder = false;

    bool operator==(const FolderEntry&) const = default;
};

struct FolderList {
    std::string folder;                  ///< From the root on.
    std::vector<FolderEntry> entries{};  ///< Folders, then files, each by name.
    std::string complaint{};             ///< Why it cannot be read; empty where it was.
    std::filesystem::file_time_type as_of{};
};

/// Folders, and files whose names end so; not what is hidden, nor devices and the like. A link is
/// what it leads to. Names are in the order of the alphabet, capitals or not, numbers by what they
/// count: "row 9" before "row 10".
///
/// endings  lower case, with the dot; none: all files
[[nodiscard]] FolderList list_folder(const std::string& folder,
                                     std::span<const std::string> endings);

/// Whether something was put in or taken out since.
[[nodiscard]] bool is_out_of_date(const FolderList& list);

}  // namespace backrow::rehearsal
