#pragma once

// Unsaved changes kept safe from a run that does not end in order: a file beside nobody's scenes,
// in the state folder (base/state_folder.h), named after the scene's whole path.
//
// It holds the text of the scene, the path and the process that wrote it. While that process runs,
// nobody else reads it or writes over it: another window on the same scene has a file beside it.

#include "rehearsal/sitting/edited_scene.h"

#include "base/problem.h"

#include <optional>
#include <string>

namespace backrow::rehearsal {

/// Beyond this a recovery file is not one of ours.
inline constexpr std::size_t most_recovery_bytes = 16u << 20;

/// Where the unsaved changes of a scene are kept, by the first window on it. Fails where there is
/// no state folder.
[[nodiscard]] Made<std::string> recovery_file(const std::string& scene_path);

/// What an earlier run left unsaved of this scene: what EditedScene::take_text() takes. Where there
/// were several windows, one after the other is told as each is forgotten.
///
/// returns  nothing where nothing was left, the run that left it still goes on, or it says what the
///          scene says; one problem where the file is damaged, too large, of another scene, or its
///          text is no scene
[[nodiscard]] Checked<std::optional<std::string>> left_behind(const EditedScene& edited);

/// A scene of which only an earlier run's unsaved text is there: it was never saved, or its file is
/// gone.
struct LeftScene {
    std::string path;  ///< Where it would be saved.
    std::string text;
};
/// The first of them. What is damaged or no scene is passed over: it is told to whoever opens a
/// scene of that path.
[[nodiscard]] std::optional<LeftScene> left_scene();

/// Removes what an earlier run left of a scene, when it has been taken or is not wanted. A file
/// whose run still goes on stays.
void forget_left_behind(const std::string& scene_path);

/// Follows one scene being edited.
class Recovery {
public:
    /// Writes what is unsaved, whole or not at all, if it has changed since, beside whatever an
    /// earlier run left; removes what it wrote where nothing is unsaved any more. Costs the disk a
    /// few milliseconds: to be called when the hand lets go, not within a drag. Where it fails it
    /// says so once, and tries again at the next change.
    [[nodiscard]] Made<void> follow(const EditedScene& edited);

    /// On quitting in order: what was written goes.
    void end() noexcept;

private:
    std::string file_;  ///< Written by this run; empty for none.
    std::string path_;  ///< Of the scene whose text was written last, or could not be,
    std::string text_;  ///< and the text.
    bool has_told_ = false;
};

}  // namespace backrow::rehearsal
