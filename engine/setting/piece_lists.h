#pragma once

#include "setting/surroundings.h"

#include <utility>
#include <vector>

namespace backrow::setting {

/// A list of one. (A braced list would copy the mesh.)
[[nodiscard]] inline std::vector<Piece> one(Piece&& piece) {
    std::vector<Piece> pieces;
    pieces.push_back(std::move(piece));
    return pieces;
}

}  // namespace backrow::setting
