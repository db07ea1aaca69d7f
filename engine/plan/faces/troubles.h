#pragma once

// What is wrong with a group picture before anybody asks how sharp it is.

#include "plan/faces/face_table.h"

#include <cstddef>
#include <span>
#include <vector>

namespace backrow::plan {

/// Indices of faces, in the order of the table; somebody may be in several.
struct Troubles {
    std::vector<std::size_t> hidden;       ///< Verdict::hidden.
    std::vector<std::size_t> heads_cut;    ///< Not whole in the picture.
    std::vector<std::size_t> heads_close;  ///< Whole, but nearly cut (Cropping::is_head_close).
    std::vector<std::size_t> bodies_cut;   ///< The head is whole, something below it is not.
};

[[nodiscard]] Troubles troubles_of(std::span<const Face> faces);

}  // namespace backrow::plan
