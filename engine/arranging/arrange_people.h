#pragma once

// Who comes, and who stands in which row.

#include "arranging/arrange.h"

#include <vector>

namespace backrow::arranging {

/// Everybody: grown people first, then children. Statures that nobody gave are those of a
/// population, half women and half men, at evenly spread shares of it (figures/population.h); names
/// that nobody gave come from first_names.h, and the sex stands only beside those.
[[nodiscard]] std::vector<scene::Guest> guests_of(const GroupWishes& wishes);

/// How many stand in each row, front to back; they sum up to people.
///
/// staggered  then neighbouring rows differ by one where that can be, so that a row centred behind
///            another looks through its gaps; else as even as possible with the longer ones behind
[[nodiscard]] std::vector<int> row_counts(int people, int rows, bool staggered);

/// The small in front, the tall behind; in each row the taller towards the middle.
[[nodiscard]] std::vector<std::vector<scene::Guest>>
rows_by_stature(std::vector<scene::Guest> guests, const std::vector<int>& counts);

/// The stature that is given, or the middle one of the age.
[[nodiscard]] double stature_m_of(const scene::Guest& guest);

}  // namespace backrow::arranging
