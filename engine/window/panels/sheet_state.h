#pragma once

// What lies over the window, if anything, and what has been typed on it.

#include <optional>
#include <string>

namespace backrow::window {

enum class Sheet { none, keys, open, save_as, save_picture, leave, left_behind };

/// As scripts read it: "save as"; empty for none.
[[nodiscard]] const char* to_word(Sheet sheet) noexcept;

struct SheetState {
    Sheet shown = Sheet::none;
    std::string typed_path;
    std::string complaint;                   ///< About what was typed.
    std::string open_after_leaving;          ///< Another scene to open; empty: the window closes.
    bool is_leaving = false;                 ///< Nothing is left to ask: the window closes.
    std::optional<std::string> left_behind;  ///< Unsaved text of an earlier rehearsal.

    void show(Sheet sheet) {
        shown = sheet;
        complaint.clear();
    }
    /// Whatever was asked is answered by doing nothing.
    void close() {
        shown = Sheet::none;
        open_after_leaving.clear();
    }
};

}  // namespace backrow::window
