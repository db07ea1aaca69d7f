#pragma once

// What is wrong with a group picture before anybody asks how sharp it is.

#include "plan/faces/cropping.h"
#include "plan/faces/face_table.h"

#include <cstddef>
#include <span>
#include <vector>

namespace backrow::plan {

/// Indices of faces, in the order of the table; somebody may be in several.
struct Troubles {
    std::vector<std::size_t> hidden;  ///< Verdict::hidden.
    FrameCuts cut;
};

[[nodiscard]] Troubles troubles_of(std::span<const Face> faces);

}  // namespace backrow::plan
