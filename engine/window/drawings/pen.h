#pragma once

// What the drawings from above and from the side are drawn with: points of the scene to points of
// the screen, the zone in which faces are sharp, rulers, heads, names that do not lie on each
// other. Draws only; nothing here knows of a hand.

#include "window/layout.h"
#include "window/style.h"

#include "plan/drawings/drawing.h"
#include "plan/drawings/drawing_scale.h"
#include "plan/faces/verdict.h"

#include <imgui.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::window {

/// On the screen the camera looks to the right in both drawings.
[[nodiscard]] inline plan::DrawingPoint laid_right(const plan::DrawingPoint& from_above) {
    return {from_above.y_m, -from_above.x_m};
}
[[nodiscard]] inline plan::DrawingPoint from_laid_right(const plan::DrawingPoint& laid) {
    return {-laid.y_m, laid.x_m};
}
/// As the drawing from the side is.
[[nodiscard]] inline plan::DrawingPoint laid_as_is(const plan::DrawingPoint& point) {
    return point;
}

[[nodiscard]] plan::ScreenArea screen_area(const Area& area);

struct Pen {
    ImDrawList& on;
    const Style& style;
    plan::DrawingScale scale;
    plan::DrawingPoint (*lay)(const plan::DrawingPoint&);  ///< Of the drawing's points.

    [[nodiscard]] ImVec2 at(const plan::DrawingPoint& point) const;
    [[nodiscard]] float units_from_m(double m) const {
        return static_cast<float>(m * scale.units_per_m);
    }
    /// width  units of a plain screen
    void line(const plan::Line& line, ImU32 colour, double width) const;
};

/// Who is drawn so that one sees them.
struct Marked {
    std::vector<std::size_t> chosen;
    std::optional<std::size_t> under_pointer;
    [[nodiscard]] bool is_chosen(std::size_t person) const {
        return std::ranges::find(chosen, person) != chosen.end();
    }
    [[nodiscard]] bool has(std::size_t person) const {
        return is_chosen(person) || under_pointer == person;
    }
};

void draw_zone(const Pen& pen, const plan::DrawnZone& zone, ImU32 wash);

/// A line of dashes, for what is not a thing.
void draw_dashes(const Pen& pen, const plan::Line& line, ImU32 colour);

/// Metres along the lower edge, counted from where the lens is.
///
/// lens_at_m  to the right on the paper, as laid
void draw_ruler(const Pen& pen, const Area& area, double lens_at_m);

/// A head as a disc with what its verdict's mark has in it: full, a dot, empty, struck through;
/// half covered where it is hidden, cut where the frame cuts it.
void draw_head(const Pen& pen, const ImVec2& middle, float radius, plan::Verdict verdict);

/// What is drawn, in the corner.
void draw_title(const Pen& pen, const Area& area, const char* title);

/// Letters names where there is room, the first come first.
class Names {
public:
    void letter(const Pen& pen, const ImVec2& left_top, const std::string& name, ImU32 colour,
                bool at_any_cost);

private:
    std::vector<Area> taken_;
};

}  // namespace backrow::window
