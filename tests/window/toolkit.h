#pragma once

// The toolkit without a window.

#include <imgui.h>

namespace backrow::window {

/// A context as long as it lives.
struct Toolkit {
    Toolkit() {
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
    }
    Toolkit(const Toolkit&) = delete;
    Toolkit& operator=(const Toolkit&) = delete;
    ~Toolkit() { ImGui::DestroyContext(); }
};

/// One in which frames can be begun, 400 × 300, with the toolkit's own letters.
struct LetteredToolkit : Toolkit {
    LetteredToolkit() {
        ImGuiIO& io = ImGui::GetIO();
        io.DisplaySize = {400, 300};
        io.Fonts->AddFontDefault();
        io.Fonts->Build();
    }
};

}  // namespace backrow::window
