#pragma once

// What lies over the window, if anything, and what has been typed on it.

#include "rehearsal/edited_scene.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::window {

enum class Sheet { none, keys, open, save_as, save_picture, leave, left_behind, clash };

/// As scripts read it: "save as"; empty for none.
[[nodiscard]] const char* to_word(Sheet sheet) noexcept;

struct SheetState {
    Sheet shown = Sheet::none;
    std::string typed_path;
    std::string complaint;                   ///< About what was typed.
    std::string open_after_leaving;          ///< Another scene to open; empty: the window closes.
    bool is_leaving = false;                 ///< Nothing is left to ask: the window closes.
    std::optional<std::string> left_behind;  ///< Unsaved text of an earlier rehearsal.

    std::vector<rehearsal::Clash> clashes;  ///< To be answered …
    std::vector<bool> takes_from_file;      ///< … each by what the file has, or by what is here.
    bool is_either_or = false;              ///< The two cannot be brought together …
    bool takes_whole_file = false;          ///< … and this one is taken.
    bool saves_after_clash = false;

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
