#pragma once

// The five backdrops, each in a file of its own.

#include "setting/surroundings.h"

namespace backrow::setting {

/// The height that fills the view, but never less or more than the thing is grown or built to.
[[nodiscard]] float sensible_height_m(const Reach& reach, float least_m, float most_m) noexcept;

[[nodiscard]] std::vector<Piece> build_wall(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_hedge(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_trees(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_lights(double back_m, const Reach& reach);
[[nodiscard]] std::vector<Piece> build_water(double back_m, const Reach& reach);

}  // namespace backrow::setting
