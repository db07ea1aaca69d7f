#pragma once

// What lies over the window, if anything, and what has been typed on it.

#include "window/panels/file_chooser.h"

#include "delivery/choices.h"
#include "rehearsal/sitting/edited_scene.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::window {

enum class Sheet {
    none,
    keys,
    open,
    save_as,
    give_away,
    leave,
    left_behind,
    clash,
    reasons,
    photo_file,
    panorama_file,
    model_file,
    photo_size
};

/// As scripts read it: "save as"; empty for none.
[[nodiscard]] const char* to_word(Sheet sheet) noexcept;

/// What is chosen on the sheet "Give away".
struct GiveAwayForm {
    delivery::Choices choices;
    std::vector<std::string> to_replace{};  ///< Asked about: files that stand there already.
};

struct SheetState {
    Sheet shown = Sheet::none;
    std::optional<FileChooser> chooser;  ///< Of this sheet; of "Give away" that of its folder.
    std::optional<GiveAwayForm> give_away;
    std::string complaint;                   ///< About what was entered.
    std::string open_after_leaving;          ///< Another scene to open; empty: the window closes.
    bool is_leaving = false;                 ///< Nothing is left to ask: the window closes.
    std::optional<std::string> left_behind;  ///< Unsaved text of an earlier rehearsal …
    std::string left_path;                   ///< … of a scene without a file; empty: of this one.

    std::vector<rehearsal::Clash> clashes;  ///< To be answered …
    std::vector<bool> takes_from_file;      ///< … each by what the file has, or by what is here.
    bool is_either_or = false;              ///< The two cannot be brought together …
    bool takes_whole_file = false;          ///< … and this one is taken.
    bool saves_after_clash = false;

    void show(Sheet sheet) {
        shown = sheet;
        chooser.reset();
        complaint.clear();
    }
    /// Whatever was asked is answered by doing nothing.
    void close() {
        shown = Sheet::none;
        chooser.reset();
        open_after_leaving.clear();
    }
    /// Out of what lies on top: a folder's list to the sheet it is for, a sheet to the window.
    void step_back();

    /// All letters that somebody may have typed or named.
    [[nodiscard]] std::string letters() const;
};

}  // namespace backrow::window
