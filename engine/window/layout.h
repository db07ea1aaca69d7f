#pragma once

// Which part of the window lies where.

#include <imgui.h>

namespace backrow::window {

/// A rectangle on the screen.
struct Area {
    ImVec2 least{};
    ImVec2 most{};
    [[nodiscard]] float width() const { return most.x - least.x; }
    [[nodiscard]] float height() const { return most.y - least.y; }
    [[nodiscard]] bool contains(const ImVec2& point) const {
        return point.x >= least.x && point.x <= most.x && point.y >= least.y && point.y <= most.y;
    }
};

struct Layout {
    Area top, camera, faces, above, side, panel, foot;
};

/// No two overlap, whatever the size.
///
/// size   of the window
/// scale  of letters and lines
[[nodiscard]] Layout lay_out(const ImVec2& size, double scale);

}  // namespace backrow::window
