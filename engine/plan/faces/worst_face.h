#pragma once

// Whose face is the least sharp: the one rule for summaries, sheets, strips, advice and the window.

#include "plan/faces/face_table.h"

#include <cstddef>
#include <span>
#include <vector>

namespace backrow::plan {

/// Everybody, the least sharp first: those whose face lies whole in the picture by how blurred they
/// are, then the others likewise, for a verdict is one on the picture. Who is equally blurred keeps
/// the order of the table.
///
/// returns  indices into faces, one for each
[[nodiscard]] std::vector<std::size_t> worst_first(std::span<const Face> faces);

/// The first of them. At least one face.
[[nodiscard]] std::size_t worst_face(std::span<const Face> faces);

}  // namespace backrow::plan
