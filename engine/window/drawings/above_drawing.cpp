#include "window/drawings/above_drawing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace backrow::window {
namespace {

using plan::DrawingPoint;
using plan::FromAbove;

float head_radius(const Pen& pen, const plan::PersonFromAbove& person, double least_units) {
    return std::max(pen.style.units(least_units), pen.units_from_m(person.head_half_length_m));
}

void draw_blocks(const Pen& pen, const std::vector<setting::Block>& blocks) {
    for (const setting::Block& block : blocks) {
        const ImVec2 one = pen.at({block.left_m, block.near_back_m});
        const ImVec2 other = pen.at({block.right_m, block.far_back_m});
        pen.on.AddRectFilled({std::min(one.x, other.x), std::min(one.y, other.y)},
                             {std::max(one.x, other.x), std::max(one.y, other.y)},
                             pen.style.theme.ground);
    }
}

void draw_frame(const Pen& pen, const std::array<DrawingPoint, 4>& frame) {
    const Theme& theme = pen.style.theme;
    std::array<ImVec2, 4> corners{};
    std::ranges::transform(frame, corners.begin(),
                           [&](const auto& corner) { return pen.at(corner); });
    pen.on.AddQuadFilled(corners[0], corners[1], corners[2], corners[3], theme.frame_wash);
    pen.on.AddLine(corners[0], corners[3], theme.rule, 1.5f);
    pen.on.AddLine(corners[1], corners[2], theme.rule, 1.5f);
}

/// What stands or lies there before anybody comes.
void draw_surroundings(const Pen& pen, const FromAbove& drawing) {
    for (const plan::BackdropFromAbove& backdrop : drawing.backdrops)
        pen.line(backdrop.line, pen.style.theme.rule, 4);
    for (const auto& corners : drawing.models) {
        if (!corners)
            continue;
        const auto& model = *corners;
        pen.on.AddQuadFilled(pen.at(model[0]), pen.at(model[1]), pen.at(model[2]), pen.at(model[3]),
                             pen.style.theme.ground);
    }
    for (const plan::RowFromAbove& row : drawing.rows)
        draw_dashes(pen, row.line, pen.style.theme.faint_ink);
}

/// A ring with a stroke for every eighth of a turn, on which the sun stands: a disc where it casts
/// shadows, a ring where it does not, cut by a line where it has set. A dart tells where it shines.
void draw_sun(const Pen& pen, const plan::SunFromAbove& sun) {
    const Theme& theme = pen.style.theme;
    const ImVec2 middle = pen.at(sun.middle);
    const ImVec2 at = pen.at(sun.at);
    const float ring = pen.units_from_m(sun.radius_m);
    const auto unit = [](double turn) {
        return ImVec2{static_cast<float>(std::cos(turn)), static_cast<float>(std::sin(turn))};
    };
    const auto stroke = [&](const ImVec2& from, const ImVec2& along, float near, float far,
                            ImU32 ink, double width) {
        pen.on.AddLine({from.x + along.x * near, from.y + along.y * near},
                       {from.x + along.x * far, from.y + along.y * far}, ink,
                       pen.style.units(width));
    };
    constexpr int eighths = 8;
    for (int i = 0; i < eighths; ++i) {
        const ImVec2 along = unit(2 * std::numbers::pi * i / eighths);
        stroke(middle, along, ring - pen.style.units(3), ring + pen.style.units(3), theme.rule,
               1.5);
        if (sun.casts)
            stroke(at, along, pen.style.units(8), pen.style.units(11), theme.accent, 1.6);
    }
    pen.on.AddCircle(middle, ring, theme.rule, 0, pen.style.units(1));
    const float radius = pen.style.units(5.5);
    pen.on.AddCircleFilled(at, radius, sun.casts ? theme.accent : theme.paper);
    pen.on.AddCircle(at, radius, theme.accent, 0, pen.style.units(1.8));
    if (!sun.is_up)
        pen.on.AddLine({at.x - 2 * radius, at.y}, {at.x + 2 * radius, at.y}, theme.accent,
                       pen.style.units(1.8));
    const ImVec2 inwards{(middle.x - at.x) / ring, (middle.y - at.y) / ring};
    if (sun.casts)
        stroke(at, inwards, pen.style.units(13), pen.style.units(24), theme.accent, 1.6);
}

void draw_light(const Pen& pen, const FromAbove& drawing) {
    if (drawing.sun)
        draw_sun(pen, *drawing.sun);
    if (drawing.window) {
        pen.line(*drawing.window, pen.style.theme.accent, 4);
        pen.line(*drawing.window, pen.style.theme.paper, 1.5);
    }
}

void draw_camera(const Pen& pen, const FromAbove& drawing) {
    const ImVec2 lens = pen.at(drawing.lens);
    const DrawingPoint looks = pen.lay(drawing.looks);
    const ImVec2 along{static_cast<float>(looks.x_m), static_cast<float>(-looks.y_m)};
    const ImVec2 side{-along.y, along.x};
    const auto at = [&](double forward, double right) {
        const float f = pen.style.units(forward);
        const float r = pen.style.units(right);
        return ImVec2{lens.x + along.x * f + side.x * r, lens.y + along.y * f + side.y * r};
    };
    // As in a textbook: the lens a line with its arrowheads, the sensor a bar behind it.
    const ImU32 ink = pen.style.theme.ink;
    pen.on.AddLine(at(0, -10), at(0, 10), ink, pen.style.units(2));
    for (const double end : {-10.0, 10.0})
        for (const double side_of : {-3.0, 3.0})
            pen.on.AddLine(at(0, end), at(side_of, end > 0 ? end - 3 : end + 3), ink,
                           pen.style.units(1.5));
    pen.on.AddQuadFilled(at(-14, -7), at(-11, -7), at(-11, 7), at(-14, 7), ink);
}

/// From the shoulders' middle, across and along the way they face.
void draw_shoulders(const Pen& pen, const plan::PersonFromAbove& person, bool is_marked) {
    constexpr int points = 28;
    const DrawingPoint& faces = person.body_faces;
    std::array<ImVec2, points> round{};
    for (std::size_t i = 0; i < points; ++i) {
        const double angle = 2 * std::numbers::pi * static_cast<double>(i) / points;
        const double across = person.half_breadth_m * std::cos(angle);
        const double along = person.half_depth_m * std::sin(angle);
        round[i] = pen.at({person.shoulders.x_m + across * faces.y_m + along * faces.x_m,
                           person.shoulders.y_m - across * faces.x_m + along * faces.y_m});
    }
    const Theme& theme = pen.style.theme;
    pen.on.AddConvexPolyFilled(round.data(), points, is_marked ? theme.accent_wash : theme.raised);
    pen.on.AddPolyline(round.data(), points, is_marked ? theme.accent : theme.faint_ink,
                       ImDrawFlags_Closed, pen.style.units(is_marked ? 2.4 : 1.2));
}

void draw_person(const Pen& pen, const plan::PersonFromAbove& person, bool is_marked) {
    draw_shoulders(pen, person, is_marked);
    const float radius = head_radius(pen, person, 4);
    // The nose tells which way somebody looks.
    const double nose_m = 1.55 * radius / pen.scale.units_per_m;
    const DrawingPoint nose{person.head.x_m + person.head_faces.x_m * nose_m,
                            person.head.y_m + person.head_faces.y_m * nose_m};
    pen.line({person.head, nose}, pen.style.theme.faint_ink, 2);
    draw_head(pen, pen.at(person.head), radius, person.verdict);
}

void letter_names(const Pen& pen, const FromAbove& drawing, const scene::Scene& scene,
                  std::vector<std::size_t> order, const Marked& marked) {
    const Theme& theme = pen.style.theme;
    std::stable_partition(order.begin(), order.end(), [&](std::size_t i) { return marked.has(i); });
    Names names;
    for (const std::size_t i : order) {
        const ImVec2 head = pen.at(drawing.people[i].head);
        names.letter(pen,
                     {head.x + head_radius(pen, drawing.people[i], 5) + 3,
                      head.y - pen.style.fonts.small->FontSize / 2},
                     scene.people[i].name, marked.is_chosen(i) ? theme.accent : theme.ink,
                     marked.has(i));
    }
}

}  // namespace

void draw_from_above(const Pen& pen, const FromAbove& drawing, const scene::Scene& scene,
                     const std::vector<std::size_t>& worst_first, const Marked& marked) {
    const Theme& theme = pen.style.theme;
    draw_blocks(pen, drawing.risers);
    if (drawing.frame)
        draw_frame(pen, *drawing.frame);
    draw_zone(pen, drawing.fine, theme.fine_wash);
    draw_zone(pen, drawing.crisp, theme.crisp_wash);
    draw_surroundings(pen, drawing);
    draw_light(pen, drawing);
    if (drawing.plane_of_focus)
        pen.line(*drawing.plane_of_focus, theme.focus, 1.8);
    draw_camera(pen, drawing);
    for (std::size_t i = 0; i < drawing.people.size(); ++i)
        draw_person(pen, drawing.people[i], marked.has(i));
    letter_names(pen, drawing, scene, worst_first, marked);
}

}  // namespace backrow::window
