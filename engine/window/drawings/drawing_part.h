#pragma once

// What the drawings from above and from the side have in common: how points come onto the screen,
// the zone in which faces are sharp, rulers, names that do not lie on each other.

#include "window/window_state.h"

#include "rehearsal/drawing.h"

#include <vector>

namespace backrow::window {

/// On the screen the camera looks to the right in both drawings.
[[nodiscard]] inline rehearsal::DrawingPoint laid_right(const rehearsal::DrawingPoint& from_above) {
    return {from_above.y_m, -from_above.x_m};
}
[[nodiscard]] inline rehearsal::DrawingPoint from_laid_right(const rehearsal::DrawingPoint& laid) {
    return {-laid.y_m, laid.x_m};
}

[[nodiscard]] inline ImVec2 on_screen(const rehearsal::DrawingScale& scale,
                                      const rehearsal::DrawingPoint& laid) {
    const rehearsal::ScreenPoint point = screen_from_paper(scale, laid);
    return {static_cast<float>(point.x), static_cast<float>(point.y)};
}

[[nodiscard]] rehearsal::ScreenArea screen_area(const Area& area);

/// The wheel zooms about the pointer, the right button pans, a double click shows all again.
/// Whether the hand is at it.
bool zoom_and_pan(rehearsal::DrawingScale& scale, bool& is_fitted, bool hovered, bool may_zoom);

/// lays  laid_right, or the identity
template <class Lay>
void draw_zone(ImDrawList& on, const rehearsal::DrawingScale& scale,
               const rehearsal::DrawnZone& zone, ImU32 wash, const Lay& lays) {
    // Edges smoothed one by one would leave seams between the pieces.
    const ImDrawListFlags before = on.Flags;
    on.Flags &= ~ImDrawListFlags_AntiAliasedFill;
    for (std::size_t i = 0; i + 1 < zone.size(); ++i)
        if (zone[i] && zone[i + 1])
            on.AddQuadFilled(on_screen(scale, lays(zone[i]->near)),
                             on_screen(scale, lays(zone[i]->far)),
                             on_screen(scale, lays(zone[i + 1]->far)),
                             on_screen(scale, lays(zone[i + 1]->near)), wash);
    on.Flags = before;
}

/// A line of dashes, for what is not a thing.
void draw_dashes(ImDrawList& on, const ImVec2& from, const ImVec2& to, ImU32 colour, float width,
                 float dash);

/// Metres along the lower edge, counted from where the lens is.
void draw_ruler(ImDrawList& on, const WindowState& state, const rehearsal::DrawingScale& scale,
                const Area& area, double lens_at_m);

/// A head as a disc with the shape of its grade in it: full, a dot, empty, struck through.
void draw_head(ImDrawList& on, const WindowState& state, const ImVec2& middle, float radius,
               optics::Grade grade);

/// Letters names where there is room, the first come first.
class Names {
public:
    void letter(ImDrawList& on, const WindowState& state, const ImVec2& left_top,
                const std::string& name, ImU32 colour, bool at_any_cost);

private:
    std::vector<Area> taken_;
};

}  // namespace backrow::window
