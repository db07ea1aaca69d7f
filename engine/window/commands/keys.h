#pragma once

// What the keys do: one table, which the help sheet shows and the tooltips quote.

#include "window/screen.h"
#include "window/window_state.h"

#include <span>
#include <vector>

namespace backrow::window {

struct Key {
    const char* shown;  ///< As it stands on the sheet of keys: "Ctrl S", "Shift Tab".
    const char* does;
    int key;  ///< GLFW's number.
    bool ctrl = false;
    bool shift = false;
    bool repeats = false;
    void (*command)(WindowState&) = nullptr;  ///< None: told here, done elsewhere.
    const char* group = nullptr;              ///< The heading before it.
};

[[nodiscard]] std::span<const Key> all_keys();

/// Does what was pressed, unless somebody types.
void obey_keys(WindowState& state, const std::vector<KeyPress>& pressed);

}  // namespace backrow::window
