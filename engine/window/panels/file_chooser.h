#pragma once

// The list of a folder on a sheet, in which somebody looks for a file. What it does is
// rehearsal/files/file_choice.h; here it is drawn, and keys find their way: into the line, the
// list, and what was used last.

#include "rehearsal/files/file_choice.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::window {

struct WindowState;

/// Where keys go, in the order in which Tab goes round.
enum class ChooserPart { line, take, cancel, up, home, list, used_last };
inline constexpr std::size_t chooser_parts = 7;

struct UsedLast {
    std::string path;
    bool is_folder = false;
};

struct FileChooser {
    rehearsal::FileChoice choice;
    std::vector<UsedLast> used_last{};  ///< Scenes, then folders.
    std::size_t used_marked = 0;
    ChooserPart part = ChooserPart::line;
    int line_number = 0;          ///< The field begins anew with every number.
    bool line_wants_keys = true;  ///< As soon as it is drawn.
    bool shows_marked = true;     ///< The list goes to what has just been marked.
    std::string letters{};        ///< Names on the screen, for the fonts.
};

/// start       of FileChoice
/// has_scenes  whether scenes opened last are of use
[[nodiscard]] FileChooser file_chooser(rehearsal::ChoiceOf of, std::vector<std::string> endings,
                                       const std::string& start, bool has_scenes);

/// Tab and, way being −1, Shift Tab: from the line to the buttons, the list and what was used last.
void go_round(FileChooser& chooser, int way);

/// What is drawn round a list.
struct ChooserWords {
    const char* title;
    const char* verb;  ///< On the button that takes what was chosen.
};

enum class ChooserEnd { goes_on, cancelled };

/// Draws it and does what hands ask.
///
/// end      cancelled where that was pressed
/// returns  the path that was chosen
[[nodiscard]] std::optional<std::string> draw_file_chooser(WindowState& state, FileChooser& chooser,
                                                           const ChooserWords& words,
                                                           ChooserEnd& end);

}  // namespace backrow::window
