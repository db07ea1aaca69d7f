#pragma once

// What lies over the window until a scene has been chosen or a group begun: a new group, the demo
// scenes as pictures, and what was opened last.

#include "window/layout.h"
#include "window/pictures/screen_picture.h"

#include "rehearsal/sitting/new_group.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::window {

struct WindowState;

/// A scene with its picture.
struct DemoScene {
    std::string path;
    std::string name;
    std::optional<ScreenPicture> picture{};  ///< Once it has been drawn; none where there is none.
};

struct FirstPage {
    rehearsal::NewGroup group{.guests = std::vector<rehearsal::TypedGuest>(6)};
    std::string typed_lens;            ///< "85", "85/1.8"
    std::string complaint;             ///< About the group …
    std::string no_scene;              ///< … and why a scene that was chosen cannot be opened …
    bool shows_no_scene = false;       ///< … which is scrolled to.
    bool wants_keys = false;           ///< The first name is typed as soon as the page is drawn.
    std::vector<std::string> reasons;  ///< Of the group that was arranged last.
    std::vector<DemoScene> demos;
    std::vector<std::string> recent;
    std::size_t pictures_read = 0;  ///< Of the demos, one a frame, so that nobody waits for all.
};

/// Fills what is found on the disk.
void find_scenes(FirstPage& page);

/// Over the whole window.
void draw_first_page(WindowState& state, const Area& area);

}  // namespace backrow::window
