#pragma once

// A window on the screen with the toolkit that draws in it; closed and put away with its owner.

#include "base/problem.h"

#include <memory>
#include <string>
#include <vector>

namespace backrow::window {

/// As GLFW numbers keys and what is held with them.
struct KeyPress {
    int key = 0;
    bool ctrl = false;
    bool shift = false;
    bool alt = false;
    bool is_repeat = false;
};

class Screen {
public:
    /// Fails where the machine has no screen, or no OpenGL for a window on it.
    ///
    /// width, height  of the window, in units of the screen
    [[nodiscard]] static Made<Screen> open(const std::string& title, int width, int height);

    Screen(Screen&&) noexcept;
    Screen& operator=(Screen&&) noexcept;
    ~Screen();

    [[nodiscard]] bool is_closing() const;
    void keep_open();
    void set_title(const std::string& title);

    /// How much larger than on a plain screen letters and lines are to be: 2 on a dense one.
    [[nodiscard]] double scale() const;

    /// Waits until something happens, or so long; 0 does not wait.
    void wait(double seconds);
    /// Whether anything came from mouse, keyboard or the system since this was last asked.
    [[nodiscard]] bool had_input();
    /// Every key pressed that the frame is to hear, however short the tap. What is pressed with
    /// Ctrl comes by itself, after whatever was typed before it.
    [[nodiscard]] std::vector<KeyPress> take_keys();

    /// To be called between frames when fonts were loaded anew: the next one shows them.
    void take_new_fonts();

    /// field_opens  what is typed waits: a field that it is for has not got the keys yet
    void begin_frame(bool field_opens);
    void end_frame(unsigned background);

    /// Ends wait(); from any thread.
    static void wake();

private:
    struct State;
    explicit Screen(std::unique_ptr<State> state) noexcept;
    std::unique_ptr<State> state_;
};

}  // namespace backrow::window
