#pragma once

// A scene file while it is being changed by hand: what it says now, what was done to it, and what
// has been saved.
//
// The text of the file is the one truth. Every change is a list of values as --set takes them,
// written into the text where its owner would have written them
// (scene_file/editing/edit_scene_text.h) and read back like any scene file; so nothing can be done
// here that a file could not say, comments and order stay, and what is wrong is told in the same
// words as on the command line.

#include "scene/scene.h"

#include "base/length_words.h"
#include "base/problem.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::rehearsal {

/// Changes of one drag, or of another single movement of the hand, have one number and are undone
/// together. 0 stands for none: a change by itself.
using DragId = int;

/// One value that was changed here and, to something else, in the file.
struct Clash {
    std::string key;      ///< "camera.distance_m"
    std::string here;     ///< What it is, as the file would say it; empty where it is no more.
    std::string in_file;  ///< Likewise.
};

/// What has been changed here brought together with what the file has become meanwhile.
struct Merged {
    std::string text;            ///< Of both; where they clash, of here.
    std::vector<Clash> clashes;  ///< To be asked about.
    std::string file_text{};     ///< What the file had.
    bool is_either_or = false;   ///< The two cannot be brought together: text is the file's.
};

class EditedScene {
public:
    /// path  the scene file; its text is read once
    [[nodiscard]] static Checked<EditedScene> open(const std::string& path);

    /// A scene that no file has yet.
    ///
    /// path  where it would be saved
    [[nodiscard]] static Checked<EditedScene> begin(const std::string& text,
                                                    const std::string& path);
    /// Whether it has never been saved.
    [[nodiscard]] bool is_new() const noexcept { return is_new_; }

    [[nodiscard]] const scene::Scene& scene() const noexcept { return steps_[at_].scene; }
    [[nodiscard]] const std::string& text() const noexcept { return steps_[at_].text; }
    [[nodiscard]] const std::string& path() const noexcept { return path_; }

    /// Does something to the scene, or tells why that cannot be and leaves all as it was. A change
    /// that changes nothing leaves no step to undo.
    ///
    /// what    as it stands beside "Undo": "Lead Bram"
    /// values  as for --set
    [[nodiscard]] Checked<void> change(const std::string& what,
                                       const std::vector<std::string>& values, DragId drag = 0);

    /// Takes a whole text in place of what the scene says: one change, which can be undone. Or
    /// tells what is wrong with it.
    [[nodiscard]] Checked<void> take_text(const std::string& what, std::string text);

    [[nodiscard]] bool can_undo() const noexcept { return at_ > 0; }
    [[nodiscard]] bool can_redo() const noexcept { return at_ + 1 < steps_.size(); }
    /// What would be undone or done again: of values, what they did to the scene, where that is one
    /// thing; else as whoever did it called it. Empty where nothing would.
    [[nodiscard]] std::string undone_next(Units units) const;
    [[nodiscard]] std::string redone_next(Units units) const;
    /// Whether what would be undone was done in this movement of the hand.
    [[nodiscard]] bool ends_with(DragId drag) const noexcept {
        return can_undo() && steps_[at_].drag == drag;
    }
    void undo() noexcept;
    void redo() noexcept;

    [[nodiscard]] bool has_unsaved_changes() const noexcept { return text() != saved_text_; }
    /// Writes the text to the file, whole or not at all, whatever the file has become.
    [[nodiscard]] Made<void> save();
    /// The same elsewhere, which is then the file. Files that the scene names are looked for from
    /// there: refused, with nothing written, where one of them is not found. What would be undone
    /// or done again as far as such a scene, and beyond it, is forgotten.
    [[nodiscard]] Checked<Made<void>> save_as(const std::string& path);

    /// Whether the file's text is no longer the one that was read or saved last.
    [[nodiscard]] bool was_changed_on_disk() const;
    /// What was done here since the file was read or saved last, done to what the file has now: the
    /// same values put into its text. Tells what is wrong with the file.
    [[nodiscard]] Checked<Merged> merged_with_file() const;
    /// Takes what was brought together as one change, which can be undone; from then on the file's
    /// text is what was read last.
    ///
    /// from_file  keys of clashes, of which the file's value is taken
    [[nodiscard]] Checked<void> take_merged(const Merged& merged,
                                            const std::vector<std::string>& from_file);
    /// The file as it is now counts as read: what is here goes over it when saved.
    void overrule_file();

private:
    struct Step {
        std::string what;
        std::string text;
        scene::Scene scene;
        DragId drag = 0;
        bool is_whole_text = false;
        /// What was set, one change after the other: of a drag, or beside what the file had.
        /// Nothing where that is not known, of any other whole text.
        std::optional<std::vector<std::vector<std::string>>> changes{};
    };

    EditedScene(std::string path, Step first);
    [[nodiscard]] Checked<void> take(Step step);
    void go_on_with(Step step);
    void forget_steps_before(std::size_t first);
    void read_steps_anew();
    [[nodiscard]] std::string what_happened(std::size_t step, Units units) const;

    std::string path_;
    std::string saved_text_;
    /// Which steps led from the saved text to what is here.
    struct Way {
        std::size_t from = 0;   ///< The changes of those after this one, made to the saved text …
        std::size_t since = 0;  ///< … give what is here, at this one and those that follow.
    };
    std::optional<Way> way_ = Way{};  ///< Nothing where that is no longer known.
    bool is_new_ = false;
    std::vector<Step> steps_;
    std::size_t at_ = 0;
};

}  // namespace backrow::rehearsal
