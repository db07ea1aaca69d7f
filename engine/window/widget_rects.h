#pragma once

// Where on the window everything is that can be pointed at, and how the rehearsal stands, as a file
// for scripts: a test or a lesson that moves the pointer must know where to.

#include "window/focus_ring.h"

#include "base/problem.h"

#include <imgui.h>

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace backrow::window {

struct NamedRect {
    std::string name;
    ImVec2 least{};
    ImVec2 most{};
};

/// Something on the window with an edge of its own: a panel, a sheet.
struct NamedPart {
    std::string name;
    ImVec2 least{};
    ImVec2 most{};
    float above = 0;   ///< So much of it the wheel would bring from above its edge …
    float below = 0;   ///< … and from below, units of the screen.
    float beyond = 0;  ///< So much lies beyond its right edge, where nothing brings it: a fault.
    std::size_t first = 0;  ///< What it holds, of all rectangles …
    std::size_t end = 0;    ///< … up to this one.
};

/// What can be worked, and what it shows, for whoever does not see it.
struct Control {
    const char* role = "button";
    std::string value{};          ///< What is chosen, set or typed.
    std::optional<bool> is_on{};  ///< Nothing for what is neither on nor off.
    bool is_disabled = false;     ///< There is nothing that it could do now.

    [[nodiscard]] static Control tick(bool is_on) {
        return {.role = "tick", .value = {}, .is_on = is_on};
    }
    /// One of several that exclude each other.
    [[nodiscard]] static Control choice(bool is_on) {
        return {.role = "choice", .value = {}, .is_on = is_on};
    }
    [[nodiscard]] static Control list(std::string chosen) {
        return {.role = "list", .value = std::move(chosen)};
    }
    /// It is typed once it was clicked.
    [[nodiscard]] static Control quantity(std::string words) {
        return {.role = "quantity", .value = std::move(words)};
    }
    [[nodiscard]] static Control field(std::string typed) {
        return {.role = "field", .value = std::move(typed)};
    }
};

/// What a script waits for.
struct Status {
    int edition = 0;
    bool is_settled =
        false;           ///< Nothing is being rendered, and all that is shown is of this edition.
    std::string undo{};  ///< What would be undone; empty for nothing.
    std::string chosen{};
    std::string complaint{};  ///< Of the window, or of the sheet over it.
    std::string notice{};     ///< What was done last, such as saving.
    std::string failure{};    ///< Why nothing was given away, until somebody has taken note.
    std::string panel{};      ///< Which of them is shown: "Camera", "People" …
    std::string sheet{};      ///< What lies over the window: "keys", "open", "give away" … or "".
    bool is_holding = false;  ///< Something in a drawing, to drag it.
    bool is_typing = false;   ///< Keys go into a field.
    bool is_walking = false;  ///< Keys go through a panel, a sheet or the first page: "has_keys".
    bool has_unsaved_changes = false;
    bool was_changed_on_disk = false;
    bool is_giving_away = false;
    bool is_dark = false;
    int picture_samples = 0;
    double first_answer_ms =
        0;  ///< From the last input to the first picture of its edition on the screen.
    double drag_pictures_per_s = 0;  ///< While the hand last kept moving.
};

class WidgetRects {
public:
    /// path  empty: nothing is noted
    explicit WidgetRects(std::string path) : path_{std::move(path)} {}

    void begin() {
        rects_.clear();
        parts_.clear();
        controls_.clear();
        focused_.clear();
        is_moving_ = false;
    }
    /// What was drawn is not yet where it will be: this frame is not told, and one more has to be
    /// drawn.
    [[nodiscard]] bool is_moving() const noexcept { return is_moving_; }
    void note(const std::string& name, const ImVec2& least, const ImVec2& most,
              std::optional<Control> control = {});
    /// The part of the toolkit that was drawn last, as much of it as can be seen. What the wheel
    /// must bring into view first is not noted: nobody can point at it.
    void note_last(const std::string& name, Control control = {});
    /// What has the keys where the toolkit does not know.
    void note_keys(const std::string& name) { focused_ = name; }
    /// The toolkit's window that is being drawn, before it ends.
    ///
    /// first  how many rectangles there were when it began: the later ones are what it holds
    void note_part(const std::string& name, std::size_t first);
    [[nodiscard]] std::size_t count() const noexcept { return rects_.size(); }
    /// Everything that is noted can be worked, and is a stop for Tab where the ring is open.
    FocusRing ring;

    /// Writes the file anew, with the name of what has the keys, where it would differ.
    [[nodiscard]] Made<void> end(const Status& status);

private:
    std::string path_;
    std::vector<NamedRect> rects_;
    std::vector<NamedPart> parts_;
    struct NamedControl {
        std::string name;
        Control control;
    };
    std::vector<NamedControl> controls_;
    /// How much a part holds.
    struct Extent {
        float beyond = 0, below = 0, end = 0;
        bool operator==(const Extent&) const = default;
    };
    std::map<std::string, Extent> extents_;  ///< As each was drawn last.
    std::string focused_;
    std::string written_;
    bool is_moving_ = false;
};

}  // namespace backrow::window
