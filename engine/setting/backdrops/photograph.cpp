#include "setting/backdrops/photograph.h"

#include "setting/backdrops/light_spots.h"
#include "setting/ground/grounds.h"
#include "setting/piece_lists.h"

#include "shapes/assemble.h"

#include "base/units.h"

#include <cmath>
#include <cstdint>
#include <numbers>

namespace backrow::setting {
namespace {

constexpr float lights_nearer_m = 0.01F;

// A flat octagon seen from its front. point_at(place in the picture) gives where that is.
template <class PointAt>
Piece light_piece(const LightSpot& spot, const glm::vec3& facing, const PointAt& point_at) {
    constexpr std::uint32_t corners = 8;
    Piece piece{.material = {.base_colour = glm::vec3{0}, .emission = spot.light},
                .is_highlight = true};
    for (std::uint32_t i = 0; i < corners; ++i) {
        const float turn = 2 * std::numbers::pi_v<float> * static_cast<float>(i) / corners;
        // The picture counts down, so the way round that is clockwise there is not in the world.
        const glm::vec2 at_px = spot.middle_px + std::cos(turn) * spot.long_axis_px -
                                std::sin(turn) * spot.short_axis_px;
        shapes::append(piece.mesh, {.position_m = point_at(at_px), .normal = facing});
    }
    for (std::uint32_t i = 1; i + 1 < corners; ++i)
        shapes::append_triangle(piece.mesh, 0, i, i + 1);
    return piece;
}

}  // namespace

std::vector<Piece> build_photograph(const Photograph& photograph, double back_m,
                                    const Image<Rgba8>& picture, int texture) {
    const glm::dvec2 size_px{picture.width_px(), picture.height_px()};
    const double m_a_px = photograph.width_m / size_px.x;
    const glm::dvec2 top_left_m{photograph.across_m - photograph.width_m / 2,
                                photograph.up_m + size_px.y * m_a_px};
    const auto point_at = [&](const glm::dvec2& at_px, double nearer_m) {
        return glm::vec3{glm::dvec3{top_left_m.x + at_px.x * m_a_px,
                                    top_left_m.y - at_px.y * m_a_px, -back_m + nearer_m}};
    };
    const glm::vec3 facing{0, 0, 1};
    // Textures repeat; half a pixel within the edge the last row does not mix with the first.
    const glm::dvec2 inset = 0.5 / size_px;
    const auto corner = [&](double x_share, double y_share) {
        return shapes::Vertex{
            .position_m = point_at(glm::dvec2{x_share, y_share} * size_px, 0),
            .normal = facing,
            .uv = glm::vec2{inset + glm::dvec2{x_share, y_share} * (1.0 - 2.0 * inset)}};
    };
    // A lens's errors are found at corners, and bend between them: no cell may be large in the
    // frame.
    Piece plane{.material = {.lit = false, .texture = texture}};
    constexpr int columns = 32;
    constexpr int rows = 24;
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const double left = 1.0 * column / columns, right = (column + 1.0) / columns;
            const double top = 1.0 * row / rows, bottom = (row + 1.0) / rows;
            shapes::append_quad(plane.mesh, {corner(left, bottom), corner(right, bottom),
                                             corner(right, top), corner(left, top)});
        }

    std::vector<Piece> pieces = one(std::move(plane));
    for (const LightSpot& spot :
         light_spots(picture, static_cast<float>(photograph.highlight_gain))) {
        pieces.push_back(light_piece(spot, facing, [&](const glm::vec2& at_px) {
            return point_at(glm::dvec2{at_px}, static_cast<double>(lights_nearer_m));
        }));
    }
    return pieces;
}

std::vector<Piece> build_panorama(const Image<Rgba8>& picture, double turn_deg, int texture) {
    constexpr int columns = 96;
    constexpr int rows = 48;
    const auto towards = [&](double x_share, double y_share) {
        const double bearing = rad_from_deg(turn_deg + 360 * (x_share - 0.5));
        const double elevation = rad_from_deg(180 * (0.5 - y_share));
        return glm::vec3{glm::dvec3{std::sin(bearing) * std::cos(elevation), std::sin(elevation),
                                    -std::cos(bearing) * std::cos(elevation)}};
    };
    Piece ball{.material = {.lit = false, .texture = texture}};
    for (int row = 0; row <= rows; ++row) {
        for (int column = 0; column <= columns; ++column) {
            const double x_share = static_cast<double>(column) / columns;
            const double y_share = static_cast<double>(row) / rows;
            const glm::vec3 out = towards(x_share, y_share);
            shapes::append(ball.mesh, {.position_m = dome_radius_m * out,
                                       .normal = -out,
                                       .uv = glm::vec2{glm::dvec2{x_share, y_share}}});
        }
    }
    for (std::uint32_t row = 0; row < rows; ++row) {
        for (std::uint32_t column = 0; column < columns; ++column) {
            const std::uint32_t high_left = row * (columns + 1) + column;
            const std::uint32_t low_left = high_left + columns + 1;
            if (row > 0)
                shapes::append_triangle(ball.mesh, high_left, low_left + 1, high_left + 1);
            if (row + 1 < rows)
                shapes::append_triangle(ball.mesh, high_left, low_left, low_left + 1);
        }
    }

    std::vector<Piece> pieces = one(std::move(ball));
    const glm::dvec2 size_px{picture.width_px(), picture.height_px()};
    for (const LightSpot& spot : light_spots(picture, static_cast<float>(usual_highlight_gain))) {
        const glm::dvec2 middle = glm::dvec2{spot.middle_px} / size_px;
        // Within the flat facets of the ball, which lie up to 1 − cos(half a facet) inside it.
        constexpr float within = 0.995F;
        pieces.push_back(
            light_piece(spot, -towards(middle.x, middle.y), [&](const glm::vec2& at_px) {
                const glm::dvec2 at = glm::dvec2{at_px} / size_px;
                return within * dome_radius_m * towards(at.x, at.y);
            }));
    }
    return pieces;
}

}  // namespace backrow::setting
