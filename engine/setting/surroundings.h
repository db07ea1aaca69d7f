#pragma once

// Everything in the picture that is not a person or an imported model, as triangles.

#include "shapes/mesh.h"

#include "base/problem.h"

#include <glm/vec3.hpp>

#include <cstdint>
#include <string>
#include <vector>

namespace backrow::setting {

enum class Ground { grass, paving, sand, boards };
enum class BackdropKind {
    wall,
    hedge,
    trees,
    lights,
    water,
    photo,
    bookshelf,
    hall,
    beach,
    street
};
/// What a wall shows.
enum class Finish { brick, plaster };

/// What a backdrop needs to know of the view in order to fill it.
struct Reach {
    double left_m = -10;  ///< Across, the part of the backdrop's plane that must be filled …
    double right_m = 10;  ///< … with the margin for blur already in it.
    double top_m = 8;     ///< Highest point in view at that depth, for choosing a height.
    double lens_to_backdrop_m = 10;
    double sun_azimuth_deg = 140;  ///< For glitter on water; as in build_sky().
    double sun_elevation_deg = 35;

    bool operator==(const Reach&) const = default;
};

/// How many times brighter than white a lamp is that a photograph cut off at white: three stops.
/// Common practice, no source.
inline constexpr double usual_highlight_gain = 8;

/// What a backdrop of kind photo shows, and how large. The plane stands upright, facing +z.
struct Photograph {
    std::string file;
    double width_m = 0;   ///< As high as the picture's shape makes it.
    double across_m = 0;  ///< Its middle.
    double up_m = 0;      ///< Its lower edge.
    double highlight_gain = usual_highlight_gain;
    Place named_at{};  ///< Where the scene names the file.

    bool operator==(const Photograph&) const = default;
};

struct Backdrop {
    BackdropKind kind = BackdropKind::hedge;
    double back_m = 9;
    Photograph photograph{};
    Finish finish = Finish::brick;  ///< Of a wall.

    bool operator==(const Backdrop&) const = default;
};

/// Steps and risers are of stone, down to the ground; seats are of wood.
enum class BlockKind { step, seat };

/// What people stand or sit on, by the upright box that it fills.
struct Block {
    double left_m, right_m;
    double near_back_m, far_back_m;  ///< Behind the mark; near < far.
    double top_m;                    ///< Above the ground at the mark.
    BlockKind kind = BlockKind::step;
    double foot_m = 0;  ///< Of a seat: how high the floor is that it stands on; < top.

    bool operator==(const Block&) const = default;
};

/// One piece of the surroundings: a mesh and what it is made of.
struct Piece {
    shapes::Mesh mesh{};
    shapes::Material material{};
    bool is_highlight = false;  ///< A light far brighter than white, a closed convex solid or flat
                                ///< and convex; drawn with more lens samples than the rest.
};

/// The ground at up 0, from under the camera to the horizon, finer near the mark.
[[nodiscard]] std::vector<Piece> build_ground(Ground ground);

/// A sky dome far beyond every backdrop, brightest round the sun. Azimuth 0 is behind the camera's
/// back, 90 at picture right, 180 behind the group.
[[nodiscard]] std::vector<Piece> build_sky(double sun_elevation_deg, double sun_azimuth_deg);

/// A backdrop standing at back_m. The same arguments give the same triangles. Nothing for a photo,
/// which build_photograph() makes of its picture.
[[nodiscard]] std::vector<Piece> build_backdrop(const Backdrop& backdrop, const Reach& reach);

/// Steps, risers, stools and benches, all in one piece.
[[nodiscard]] std::vector<Piece> build_blocks(const std::vector<Block>& blocks);

}  // namespace backrow::setting
