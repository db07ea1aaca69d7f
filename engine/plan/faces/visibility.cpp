#include "plan/faces/visibility.h"

#include "plan/advice/segments.h"

#include "base/sequences.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace backrow::plan {
namespace {

/// Points a face is sampled at; their spacing is an eighth of a face's half width.
constexpr int points_a_face = 128;

/// How far above the middle of the head the hair line is, of the way to the crown. The old rule of
/// portrait drawing: chin to nose, nose to brow and brow to hair line are thirds, and the brow is
/// just above half of the head; so the face fills four fifths of the head's height.
constexpr double hair_line = 0.6;

double square(const glm::dvec3& v) {
    return glm::dot(v, v);
}

bool comes_within(const Segment& sight, const Segment& axis, double distance_m) {
    return closest_square_m2(sight, axis) < distance_m * distance_m;
}

/// A unit vector at right angles to a unit vector.
glm::dvec3 square_to(const glm::dvec3& unit) {
    const glm::dvec3 apart = std::abs(unit.y) < 0.5 ? glm::dvec3{0, 1, 0} : glm::dvec3{1, 0, 0};
    return glm::normalize(glm::cross(unit, apart));
}

/// Points on the part of the face that the lens would see were nobody else there, each standing for
/// the same share of the picture.
///
/// The egg is a unit ball, stretched. Seen from afar a ball is a disc, and stretching keeps shares
/// of area, so points spread evenly over the disc and lifted onto the ball's near side do.
std::vector<glm::dvec3> points_towards(const FaceShape& face, const glm::dvec3& lens_m) {
    static const std::vector<Point2> disc = disc_points(points_a_face);
    const glm::dvec3 to_lens_m = lens_m - face.middle_m;
    const auto in_half_axes = [&](const glm::dvec3& half_axis_m) {
        return glm::dot(to_lens_m, half_axis_m) / square(half_axis_m);
    };
    const glm::dvec3 towards =
        glm::normalize(glm::dvec3{in_half_axes(face.half_across_m), in_half_axes(face.half_up_m),
                                  in_half_axes(face.half_deep_m)});
    const glm::dvec3 across = square_to(towards);
    const glm::dvec3 up = glm::cross(towards, across);

    std::vector<glm::dvec3> points;
    points.reserve(disc.size());
    for (const Point2& at : disc) {
        const double lift = std::sqrt(std::max(0.0, 1 - at.x * at.x - at.y * at.y));
        const glm::dvec3 on_ball = at.x * across + at.y * up + lift * towards;
        const bool is_face = on_ball.z > 0 && on_ball.y < hair_line;
        if (is_face)
            points.push_back(face.middle_m + on_ball.x * face.half_across_m +
                             on_ball.y * face.half_up_m + on_ball.z * face.half_deep_m);
    }
    return points;
}

/// Whether the way from one point to the other goes through the triangle [MOELLER1997].
bool goes_through(const Segment& way, const std::array<glm::vec3, 3>& triangle) {
    const glm::dvec3 corner{triangle[0]};
    const glm::dvec3 along = way.to_m - way.from_m;
    const glm::dvec3 one = glm::dvec3{triangle[1]} - corner;
    const glm::dvec3 other = glm::dvec3{triangle[2]} - corner;
    const glm::dvec3 p = glm::cross(along, other);
    const double volume = glm::dot(one, p);
    if (volume == 0)
        return false;
    const glm::dvec3 from_corner = way.from_m - corner;
    const double u = glm::dot(from_corner, p) / volume;
    if (u < 0 || u > 1)
        return false;
    const glm::dvec3 q = glm::cross(from_corner, one);
    const double v = glm::dot(along, q) / volume;
    const double t = glm::dot(other, q) / volume;
    return v >= 0 && u + v <= 1 && t >= 0 && t <= 1;
}

/// Which of the points the obstacle hides. Everything is asked in the model's own space.
std::vector<bool> hidden_by(const Obstacle& obstacle, const std::vector<glm::dvec3>& points_m,
                            const Segment& sight, double face_reach_m) {
    std::vector<bool> hidden(points_m.size());
    const auto in_model = [&](const glm::dvec3& point_m) {
        return glm::dvec3{obstacle.model_from_world * glm::dvec4{point_m, 1}};
    };
    const double scale = glm::length(glm::dvec3{obstacle.model_from_world[0]});
    const Segment way{in_model(sight.from_m), in_model(sight.to_m)};
    const double wide = face_reach_m * scale;
    const scene::ModelShape& shape = *obstacle.shape;
    const glm::dvec3 middle{shape.middle};
    if (!comes_within(way, {middle, middle}, static_cast<double>(shape.reach) + wide))
        return hidden;
    std::vector<glm::dvec3> points(points_m.size());
    std::ranges::transform(points_m, points.begin(), in_model);
    for (const auto& triangle : shape.triangles) {
        const glm::dvec3 centre{(triangle[0] + triangle[1] + triangle[2]) / 3.0f};
        double reach = 0;
        for (const glm::vec3& corner : triangle)
            reach = std::max(reach, glm::distance(glm::dvec3{corner}, centre));
        if (!comes_within(way, {centre, centre}, reach + wide))
            continue;
        for (std::size_t i = 0; i < points.size(); ++i)
            hidden[i] = hidden[i] || goes_through({points[i], way.to_m}, triangle);
    }
    return hidden;
}

double reach_m(const FaceShape& face) {
    return std::sqrt(
        std::max({square(face.half_across_m), square(face.half_up_m), square(face.half_deep_m)}));
}

}  // namespace

Body body_from_solids(std::vector<figures::Capsule> solids) {
    glm::dvec3 low = solids.front().from_m;
    glm::dvec3 high = low;
    for (const figures::Capsule& solid : solids)
        for (const glm::dvec3& end : {solid.from_m, solid.to_m}) {
            low = glm::min(low, end);
            high = glm::max(high, end);
        }
    Body body{.solids = std::move(solids), .middle_m = 0.5 * (low + high)};
    for (const figures::Capsule& solid : body.solids)
        for (const glm::dvec3& end : {solid.from_m, solid.to_m})
            body.reach_m =
                std::max(body.reach_m, glm::distance(end, body.middle_m) + solid.radius_m);
    return body;
}

FaceShape face_shape(const figures::ReferencePoints& points) {
    const glm::dvec3 between_ears_m = 0.5 * (points.left_ear_m + points.right_ear_m);
    const glm::dvec3 half_across_m = 0.5 * (points.right_ear_m - points.left_ear_m);
    const glm::dvec3 across = glm::normalize(half_across_m);
    const glm::dvec3 to_nose_m = points.nose_tip_m - between_ears_m;
    const glm::dvec3 half_deep_m = to_nose_m - glm::dot(to_nose_m, across) * across;
    const glm::dvec3 up = glm::normalize(glm::cross(half_deep_m, across));

    const double chin_m = glm::dot(points.chin_m - between_ears_m, up);
    const double crown_m = glm::dot(points.crown_m - between_ears_m, up);
    return {.middle_m = between_ears_m + 0.5 * (chin_m + crown_m) * up,
            .half_across_m = half_across_m,
            .half_up_m = 0.5 * (crown_m - chin_m) * up,
            .half_deep_m = half_deep_m};
}

Visibility visibility(const FaceShape& face, const glm::dvec3& lens_m,
                      const std::vector<Body>& bodies, std::size_t own,
                      const std::vector<Obstacle>& obstacles) {
    const std::vector<glm::dvec3> points = points_towards(face, lens_m);
    Visibility seen{.hidden_by_body = std::vector<double>(bodies.size()),
                    .hidden_by_obstacle = std::vector<double>(obstacles.size())};
    if (points.empty())
        return seen;
    std::vector<bool> is_hidden(points.size());
    const auto share = [&](std::size_t count) {
        return static_cast<double>(count) / static_cast<double>(points.size());
    };
    const auto hidden_share = [&](const std::vector<bool>& hidden) {
        for (std::size_t i = 0; i < hidden.size(); ++i)
            is_hidden[i] = is_hidden[i] || hidden[i];
        return share(static_cast<std::size_t>(std::ranges::count(hidden, true)));
    };
    const Segment sight{face.middle_m, lens_m};
    const double face_reach_m = reach_m(face);

    for (std::size_t other = 0; other < bodies.size(); ++other) {
        const Body& body = bodies[other];
        const Segment middle{body.middle_m, body.middle_m};
        if (other == own || !comes_within(sight, middle, body.reach_m + face_reach_m))
            continue;
        std::vector<bool> hidden(points.size());
        for (const figures::Capsule& solid : body.solids) {
            const Segment axis{solid.from_m, solid.to_m};
            if (!comes_within(sight, axis, solid.radius_m + face_reach_m))
                continue;
            for (std::size_t i = 0; i < points.size(); ++i)
                hidden[i] = hidden[i] || comes_within({points[i], lens_m}, axis, solid.radius_m);
        }
        seen.hidden_by_body[other] = hidden_share(hidden);
    }
    for (std::size_t i = 0; i < obstacles.size(); ++i)
        seen.hidden_by_obstacle[i] =
            hidden_share(hidden_by(obstacles[i], points, sight, face_reach_m));
    seen.fraction = share(static_cast<std::size_t>(std::ranges::count(is_hidden, false)));
    return seen;
}

}  // namespace backrow::plan
