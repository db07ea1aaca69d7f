#include "window/focus_ring.h"

#include "toolkit.h"

#include <catch2/catch.hpp>
#include <imgui.h>

#include <string>

using namespace backrow::window;

namespace {

/// Two buttons, a field and, far below the edge, one more button; a heading beside them that is
/// none of theirs.
class Page {
    LetteredToolkit toolkit_;

public:
    Page() {
        ImGuiIO& io = ImGui::GetIO();
        io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
        io.KeyMap[ImGuiKey_Space] = 32;
        draw();
        draw();
    }

    void draw() {
        ImGui::NewFrame();
        ring.begin_frame();
        has_keys.clear();
        ImGui::SetNextWindowSize({200, 100});
        ImGui::Begin("page");
        ImGui::Button("beside");
        ring.note_last();
        ring.open();
        for (const char* name : {"first", "second", "field", "far"}) {
            if (name == std::string{"field"})
                ImGui::InputText(name, typed, sizeof typed);
            else if (ImGui::Button(name, {50, 60}))
                pressed = name;
            if (ImGui::IsItemFocused())
                has_keys = name;
            ring.note_last();
        }
        ring.close();
        ImGui::End();
        ImGui::EndFrame();
    }

    /// Whose turn it is after Tab.
    std::string after(int way) {
        ring.step(way);
        for (int frame = 0; frame < 3; ++frame)
            draw();
        return has_keys;
    }

    FocusRing ring;
    std::string has_keys, pressed;
    char typed[8]{};
};

}  // namespace

TEST_CASE("Tab goes once round everything that can be worked, and back to where it began",
          "[window][property]") {
    Page page;
    for (int round = 0; round < 2; ++round)
        for (const char* name : {"first", "second", "field", "far"})
            CHECK(page.after(1) == name);
    for (const char* name : {"field", "second", "first", "far"})
        CHECK(page.after(-1) == name);
    CHECK(page.pressed.empty());
}

TEST_CASE("a field that Tab comes to is typed into, and one that it leaves is not",
          "[window][property]") {
    Page page;
    page.after(1);
    page.after(1);
    CHECK_FALSE(ImGui::IsAnyItemActive());
    REQUIRE(page.after(1) == "field");
    CHECK(ImGui::IsAnyItemActive());
    leave_field();
    CHECK_FALSE(ImGui::IsAnyItemActive());
    REQUIRE(page.after(1) == "far");
    CHECK_FALSE(ImGui::IsAnyItemActive());
}

// Without a mark nobody sees where the keys are, and the toolkit would not hear Space.
TEST_CASE("what Tab comes to after the pointer was used is marked", "[window][property]") {
    Page page;
    ImGuiIO& io = ImGui::GetIO();
    io.MousePos = {30, 30};
    io.MouseDown[0] = true;
    page.draw();
    io.MouseDown[0] = false;
    page.draw();
    page.draw();
    CHECK_FALSE(io.NavVisible);
    page.after(1);
    CHECK(io.NavVisible);
}

TEST_CASE("where there is nothing to go round, Tab does nothing", "[window][property]") {
    FocusRing ring;
    ring.step(1);
    ring.begin_frame();
    ring.step(-1);
}
