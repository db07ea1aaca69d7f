#include "window/drawings/side_drawing.h"

#include <algorithm>
#include <cmath>

namespace backrow::window {
namespace {

/// A head's own directions on the screen: up from chin to crown, forward the way it looks, both of
/// its height.
class HeadFrame {
public:
    HeadFrame(const Pen& pen, const plan::HeadFromTheSide& head) : chin_{pen.at(head.chin)} {
        const ImVec2 crown = pen.at(head.crown);
        height_ = std::max(1.0f, std::hypot(crown.x - chin_.x, crown.y - chin_.y));
        up_ = {(crown.x - chin_.x) / height_, (crown.y - chin_.y) / height_};
        const bool looks_left = pen.at(head.nose_tip).x < pen.at(head.farther_ear).x;
        forward_ = looks_left ? ImVec2{up_.y, -up_.x} : ImVec2{-up_.y, up_.x};
    }
    /// How far forward of the chin a point lies.
    [[nodiscard]] float forward_of(const ImVec2& point) const {
        return ((point.x - chin_.x) * forward_.x + (point.y - chin_.y) * forward_.y) / height_;
    }
    [[nodiscard]] ImVec2 at(float forward, float up) const {
        return {chin_.x + (forward_.x * forward + up_.x * up) * height_,
                chin_.y + (forward_.y * forward + up_.y * up) * height_};
    }

private:
    ImVec2 chin_;
    float height_;
    ImVec2 up_;
    ImVec2 forward_;
};

/// Through the points that are known of a head. How the outline lies to them is a drawing, not a
/// measure.
ImVector<ImVec2> outline_of(const Pen& pen, const plan::HeadFromTheSide& head) {
    const HeadFrame frame{pen, head};
    const float face = frame.forward_of(pen.at(head.nearer_eye));
    const float back = std::min(frame.forward_of(pen.at(head.farther_ear)), face - 0.2f);
    pen.on.PathClear();
    pen.on.PathLineTo(frame.at(face - 0.02f, 0.02f));
    pen.on.PathLineTo(frame.at(face + 0.01f, 0.2f));
    pen.on.PathLineTo(frame.at(face + 0.03f, 0.32f));
    pen.on.PathLineTo(pen.at(head.nose_tip));
    pen.on.PathLineTo(frame.at(face + 0.03f, 0.52f));
    pen.on.PathBezierCubicCurveTo(frame.at(face + 0.06f, 0.65f), frame.at(face + 0.04f, 0.95f),
                                  frame.at(back + 0.12f, 1.0f));
    pen.on.PathBezierCubicCurveTo(frame.at(back - 0.35f, 1.05f), frame.at(back - 0.55f, 0.6f),
                                  frame.at(back - 0.3f, 0.25f));
    pen.on.PathBezierCubicCurveTo(frame.at(back - 0.2f, 0.12f), frame.at(back + 0.05f, 0.18f),
                                  frame.at(face - 0.02f, 0.02f));
    ImVector<ImVec2> outline = pen.on._Path;
    pen.on.PathClear();
    return outline;
}

/// With the eye as the sign of its verdict.
void draw_profile(const Pen& pen, const plan::HeadFromTheSide& head, bool is_marked) {
    const Theme& theme = pen.style.theme;
    const ImVector<ImVec2> outline = outline_of(pen, head);
    pen.on.AddConvexPolyFilled(outline.Data, outline.Size,
                               is_marked ? theme.accent_wash : with_alpha(theme.raised, 170));
    pen.on.AddPolyline(outline.Data, outline.Size, is_marked ? theme.accent : theme.faint_ink,
                       ImDrawFlags_Closed, pen.style.units(is_marked ? 2.2 : 1.2));
    draw_head(pen, pen.at(head.nearer_eye), pen.style.units(4.2), head.verdict);
}

}  // namespace

void draw_from_the_side(const Pen& pen, const plan::FromTheSide& drawing,
                        const std::vector<std::size_t>& worst_first, const Marked& marked) {
    const Theme& theme = pen.style.theme;
    draw_zone(pen, drawing.fine, theme.fine_wash);
    draw_zone(pen, drawing.crisp, theme.crisp_wash);
    if (drawing.plane_of_focus)
        pen.line(*drawing.plane_of_focus, theme.focus, 1.8);
    for (const std::size_t i : worst_first)
        if (!marked.has(i))
            draw_profile(pen, drawing.heads[i], false);
    for (const std::size_t i : worst_first)
        if (marked.has(i))
            draw_profile(pen, drawing.heads[i], true);
}

}  // namespace backrow::window
