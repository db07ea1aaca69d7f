#pragma once

// Whose face is the least sharp: the one rule for summaries, sheets, strips, advice and the window.

#include "plan/faces/face_table.h"

#include <cstddef>
#include <span>
#include <vector>

namespace backrow::plan {

/// Everybody, the worst first, as a photographer would name them: who is hidden, whose head is cut
/// off (verdict.h), then the rest by how blurred they are. Who is equally blurred keeps the order
/// of the table.
///
/// returns  indices into faces, one for each
[[nodiscard]] std::vector<std::size_t> worst_first(std::span<const Face> faces);

/// The least sharp of those who are seen and whole; of all where nobody is. At least one face.
[[nodiscard]] std::size_t worst_face(std::span<const Face> faces);

}  // namespace backrow::plan
