#include "rehearsal/hands/under_pointer.h"

#include "plan/faces/margin.h"
#include "scene/judged_blur.h"

#include "optics/blur/blur_circle.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace backrow::rehearsal {
namespace {

double between_m(const plan::DrawingPoint& a, const plan::DrawingPoint& b) {
    return std::hypot(a.x_m - b.x_m, a.y_m - b.y_m);
}

double from_line_m(const plan::Line& line, const plan::DrawingPoint& point) {
    const double x = line.to.x_m - line.from.x_m;
    const double y = line.to.y_m - line.from.y_m;
    const double square = x * x + y * y;
    const double along =
        square > 0
            ? std::clamp(((point.x_m - line.from.x_m) * x + (point.y_m - line.from.y_m) * y) /
                             square,
                         0.0, 1.0)
            : 0;
    return between_m(point, {.x_m = line.from.x_m + along * x, .y_m = line.from.y_m + along * y});
}

/// From one shoulder to the other, as far as the rounding of the arms.
plan::Line shoulder_line(const plan::PersonFromAbove& person) {
    const double half_m = std::max(0.0, person.half_breadth_m - person.half_depth_m);
    const plan::DrawingPoint aside{.x_m = half_m * person.body_faces.y_m,
                                   .y_m = -half_m * person.body_faces.x_m};
    return {{person.shoulders.x_m - aside.x_m, person.shoulders.y_m - aside.y_m},
            {person.shoulders.x_m + aside.x_m, person.shoulders.y_m + aside.y_m}};
}

bool within(const plan::PersonFromAbove& person, const plan::DrawingPoint& point, double reach_m) {
    return between_m(person.head, point) <= person.head_half_length_m + reach_m ||
           from_line_m(shoulder_line(person), point) <= person.half_depth_m + reach_m;
}

/// Of a quadrilateral without dents: whether it lies on one side of all edges.
bool covers(const std::array<plan::DrawingPoint, 4>& corners, const plan::DrawingPoint& point) {
    int left = 0;
    int right = 0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const plan::DrawingPoint& a = corners[i];
        const plan::DrawingPoint& b = corners[(i + 1) % corners.size()];
        const double turn =
            (b.x_m - a.x_m) * (point.y_m - a.y_m) - (b.y_m - a.y_m) * (point.x_m - a.x_m);
        left += turn >= 0;
        right += turn <= 0;
    }
    return left == 4 || right == 4;
}

}  // namespace

std::optional<std::size_t> person_at(const plan::FromAbove& drawing,
                                     const plan::DrawingPoint& point, double reach_m) {
    std::optional<std::size_t> nearest;
    double nearest_m = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < drawing.people.size(); ++i) {
        const double head_m = between_m(drawing.people[i].head, point);
        if (head_m < nearest_m && within(drawing.people[i], point, reach_m)) {
            nearest = i;
            nearest_m = head_m;
        }
    }
    return nearest;
}

std::optional<std::size_t> head_at(const plan::FromTheSide& drawing,
                                   const plan::DrawingPoint& point, double reach_m) {
    std::optional<std::size_t> nearest;
    double nearest_m = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < drawing.heads.size(); ++i) {
        const plan::HeadFromTheSide& head = drawing.heads[i];
        const plan::DrawingPoint middle{(head.nearer_eye.x_m + head.farther_ear.x_m) / 2,
                                        (head.chin.y_m + head.crown.y_m) / 2};
        const double apart_m = between_m(middle, point);
        if (apart_m < nearest_m && apart_m < head.height_m / 2 + reach_m) {
            nearest = i;
            nearest_m = apart_m;
        }
    }
    return nearest;
}

bool is_on_lens(const plan::FromAbove& drawing, const plan::DrawingPoint& point, double reach_m) {
    return between_m(drawing.lens, point) <= reach_m;
}

bool is_on_plane_of_focus(const plan::FromAbove& drawing, const plan::DrawingPoint& point,
                          double reach_m) {
    return drawing.plane_of_focus && from_line_m(*drawing.plane_of_focus, point) <= reach_m;
}

bool is_on_sun(const plan::FromAbove& drawing, const plan::DrawingPoint& point, double reach_m) {
    return drawing.sun && between_m(drawing.sun->at, point) <= reach_m;
}

bool is_on_window(const plan::FromAbove& drawing, const plan::DrawingPoint& point, double reach_m) {
    return drawing.window && from_line_m(*drawing.window, point) <= reach_m;
}

std::optional<std::size_t> model_at(const plan::FromAbove& drawing,
                                    const plan::DrawingPoint& point) {
    for (std::size_t i = drawing.models.size(); i-- > 0;)
        if (const auto& corners = drawing.models[i];
            corners && covers(*corners, point) &&
            std::ranges::none_of(drawing.people, [&](const plan::PersonFromAbove& person) {
                return covers(*corners, person.place);
            }))
            return i;
    return std::nullopt;
}

std::optional<std::size_t> backdrop_at(const plan::FromAbove& drawing,
                                       const plan::DrawingPoint& point, double reach_m) {
    std::optional<std::size_t> nearest;
    double nearest_m = reach_m;
    for (std::size_t i = 0; i < drawing.backdrops.size(); ++i)
        if (const double away_m = from_line_m(drawing.backdrops[i].line, point);
            away_m <= nearest_m) {
            nearest = i;
            nearest_m = away_m;
        }
    return nearest;
}

PlaceSeen place_seen(const scene::Scene& scene, const scene::CameraView& view, double level_m,
                     const plan::DrawingPoint& point) {
    const glm::dvec3 point_m =
        scene::engine_from_mark({.across_m = point.x_m, .up_m = level_m, .back_m = point.y_m});
    const scene::Seen seen = project(view, point_m);
    PlaceSeen place{.across_m = point.x_m,
                    .back_m = point.y_m,
                    .range_m = glm::distance(point_m, view.position_m),
                    .axial_m = seen.axial_m,
                    .crisp = {},
                    .fine = {}};
    if (seen.axial_m <= 0)
        return place;
    place.in_frame = seen.at_px.x >= 0 && seen.at_px.x <= view.width_px && seen.at_px.y >= 0 &&
                     seen.at_px.y <= view.height_px;
    place.frame_width_m = seen.axial_m * view.sensor_width_mm / view.image_distance_mm();
    place.frame_height_m = seen.axial_m * view.sensor_height_mm / view.image_distance_mm();
    const double blur_mm =
        optics::blur_diameter_mm(view.focused(), seen.axial_m, seen.image_height);
    place.blur_px = blur_mm * view.px_per_mm();
    place.grade = grade_of(judged_blur(blur_mm, scene, view));
    const std::array here{seen.image_height};
    place.crisp = plan::zones_at(scene, view, optics::Grade::crisp, here).front();
    place.fine = plan::zones_at(scene, view, optics::Grade::fine, here).front();
    return place;
}

}  // namespace backrow::rehearsal
