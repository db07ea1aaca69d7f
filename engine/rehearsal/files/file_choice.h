#pragma once

// Somebody looks for a file, or for a place for one: goes through folders, marks what lies there,
// or types. All of it without a window.

#include "rehearsal/files/folder_list.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::rehearsal {

enum class ChoiceOf { file_to_read, file_to_write, folder };

class FileChoice {
public:
    /// endings  of the files that are listed, as in list_folder(); where a folder is chosen none
    /// are start    a folder to begin in; or a file, whose name then stands on the line
    FileChoice(ChoiceOf of, std::vector<std::string> endings, const std::string& start);

    [[nodiscard]] ChoiceOf of() const noexcept { return of_; }
    [[nodiscard]] const FolderList& list() const noexcept { return list_; }
    [[nodiscard]] std::optional<std::size_t> marked() const noexcept { return marked_; }
    /// What is wrong with what was entered last; empty where nothing is.
    [[nodiscard]] const std::string& complaint() const noexcept { return complaint_; }
    void complain(std::string line) { complaint_ = std::move(line); }
    /// Whether the last enter() found a file where it was to write: another one replaces it.
    [[nodiscard]] bool asks_to_replace() const noexcept { return !to_replace_.empty(); }

    /// The line: a name in this folder, or a path from it, from home (~) or from the root.
    [[nodiscard]] const std::string& typed() const noexcept { return typed_; }
    void type(std::string text);

    /// A file that is marked stands on the line.
    void mark(std::size_t entry);
    /// Marks the entry so many further on; the first or the last where none is.
    void step(int entries);
    /// Marks the next entry that begins with this letter, after the last one the first.
    void find(char32_t letter);

    void go_to(const std::string& folder);
    /// The folder that was left is marked.
    void go_up();
    /// Looks again where something was put in or taken out.
    void refresh();

    /// Goes into the folder that is marked or typed, or takes what stands on the line: nothing
    /// where it was a folder, where there is no such place, and where a file would be replaced,
    /// once.
    ///
    /// returns  the path, from the root on
    [[nodiscard]] std::optional<std::string> enter();

private:
    void look_into(const std::string& folder);
    [[nodiscard]] std::optional<std::string> enter_file(const std::string& path);

    ChoiceOf of_;
    std::vector<std::string> endings_;
    FolderList list_;
    std::string typed_;
    std::optional<std::size_t> marked_;
    std::string complaint_;
    std::string to_replace_;  ///< Empty: nothing.
};

}  // namespace backrow::rehearsal
