#pragma once

// The built backdrops, each in a file of its own.

#include "setting/surroundings.h"

namespace backrow::setting {

/// The height that fills the view, but never less or more than the thing is grown or built to.
[[nodiscard]] float sensible_height_m(const Reach& reach, float least_m, float most_m) noexcept;

/// What can be seen, and so must be filled, further away than the backdrop's own plane.
struct Window {
    float left_m, right_m, top_m;
};

/// The window behind_m further away than the plane for which reach was measured.
[[nodiscard]] Window window_behind(const Reach& reach, float behind_m) noexcept;

[[nodiscard]] std::vector<Piece> build_wall(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_plaster(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_hedge(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_trees(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_lights(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_water(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_bookshelf(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_hall(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_beach(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_street(double back_m, const Reach& reach);

}  // namespace backrow::setting
