#include "render/light/light_views.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace backrow::render {
namespace {

// The sun's face is 32 arc minutes across (mean, [ALLEN]).
constexpr double sun_radius_rad = rad_from_arcmin(16.0);
// A window's view of a group that stands close spreads no wider than this, tangent of half of it.
constexpr double widest_tangent = 2.2;
constexpr double nearest_m = 0.25;

struct Axes {
    glm::dvec3 x, y;
};

Axes across(const glm::dvec3& towards) {
    const glm::dvec3 aside = std::abs(towards.y) < 0.99 ? glm::dvec3{0, 1, 0} : glm::dvec3{1, 0, 0};
    const glm::dvec3 x = glm::normalize(glm::cross(aside, towards));
    return {x, glm::cross(towards, x)};
}

// A far light's view is parallel.
LightView far_view(const glm::dvec3& towards, const Ball& ball) {
    const auto [x, y] = across(towards);
    const double scale = 0.5 / ball.radius_m;
    glm::dmat4 map{1};
    for (int i = 0; i < 3; ++i) {
        map[i][0] = x[i] * scale;
        map[i][1] = y[i] * scale;
        map[i][2] = -towards[i] * scale;
    }
    map[3] = glm::dvec4{0.5 - glm::dot(x, ball.centre_m) * scale,
                        0.5 - glm::dot(y, ball.centre_m) * scale,
                        0.5 + glm::dot(towards, ball.centre_m) * scale, 1.0};
    return {map, towards, 2.0 * ball.radius_m};
}

glm::dvec3 point_of_sun(const glm::dvec3& towards_sun, std::uint64_t index) {
    const Point2 at = square_point(index);
    const double radius = std::tan(sun_radius_rad) * std::sqrt(at.x);
    const double angle = 2.0 * std::numbers::pi * at.y;
    const glm::dvec3 aside =
        std::abs(towards_sun.y) < 0.99 ? glm::dvec3{0, 1, 0} : glm::dvec3{1, 0, 0};
    const glm::dvec3 x = glm::normalize(glm::cross(aside, towards_sun));
    const glm::dvec3 y = glm::cross(towards_sun, x);
    return glm::normalize(towards_sun + x * (radius * std::cos(angle)) +
                          y * (radius * std::sin(angle)));
}

}  // namespace

LightView view_from_sun(const glm::dvec3& towards_sun, std::uint64_t index, const Ball& ball) {
    return far_view(point_of_sun(towards_sun, index), ball);
}

LightView view_from_sky(std::uint64_t index, const Ball& ball) {
    const Point2 at = square_point(index);
    const double height = 0.03 + 0.97 * at.x;
    const double ring = std::sqrt(1.0 - height * height);
    const double angle = 2.0 * std::numbers::pi * at.y;
    return far_view({ring * std::cos(angle), height, ring * std::sin(angle)}, ball);
}

LightView view_from_window(const stage::WindowLight& window, std::uint64_t index,
                           const Ball& ball) {
    const Point2 at = square_point(index);
    const glm::dvec3 place = window.middle_m + window.half_across_m * (2.0 * at.x - 1.0) +
                             window.half_up_m * (2.0 * at.y - 1.0);
    const glm::dvec3 way = place - ball.centre_m;
    const glm::dvec3 towards = glm::length(way) < nearest_m ? -window.facing : glm::normalize(way);
    const double away_m = std::max(glm::length(way), nearest_m);
    const auto [x, y] = across(towards);
    // The tangents to the ball, unless the pane stands in it.
    const double sine = std::min(ball.radius_m / away_m, 0.999);
    const double tangent = std::min(sine / std::sqrt(1.0 - sine * sine), widest_tangent);
    const double near_m = std::max(away_m - ball.radius_m, nearest_m);
    const double far_m = away_m + ball.radius_m;

    // w is the distance along the axis, so that dividing by it is the perspective.
    const auto along = [&](const glm::dvec3& axis) {
        return glm::dvec4{axis, -glm::dot(axis, place)};
    };
    const glm::dvec4 depth = along(-towards);
    const double gain = far_m / (far_m - near_m);
    const glm::dvec4 rows[4]{along(x) * (0.5 / tangent) + 0.5 * depth,
                             along(y) * (0.5 / tangent) + 0.5 * depth,
                             gain * depth - glm::dvec4{0, 0, 0, gain * near_m}, depth};
    glm::dmat4 map{0};
    for (int row = 0; row < 4; ++row)
        for (int column = 0; column < 4; ++column)
            map[column][row] = rows[row][column];
    return {map, place, 2.0 * away_m * tangent};
}

glm::dmat4 shifted(const glm::dmat4& map_from_world, const Point2& share, double texel) {
    glm::dmat4 shift{1};
    shift[3] = glm::dvec4{(share.x - 0.5) * texel, (share.y - 0.5) * texel, 0.0, 1.0};
    return shift * map_from_world;
}

glm::dmat4 clip_from_map() {
    glm::dmat4 clip{1};
    clip[0][0] = clip[1][1] = 2.0;
    clip[3] = glm::dvec4{-1.0, -1.0, 0.0, 1.0};
    return clip;
}

}  // namespace backrow::render
