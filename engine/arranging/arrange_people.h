#pragma once

// Who comes, and who stands in which row.

#include "arranging/arrange.h"

#include <vector>

namespace backrow::arranging {

/// Who is named by what is known of people, and in no list.
[[nodiscard]] std::vector<scene::Guest> known_beside_names(const GroupWishes& wishes);

/// How many come.
[[nodiscard]] int people_of(const GroupWishes& wishes);

/// Everybody: grown people first, then children. Statures that nobody gave are those of a
/// population, half women and half men, at evenly spread shares of it (figures/population.h); names
/// that nobody gave come from first_names.h, and the sex stands only beside those. After them, who
/// is in no list; of everybody, what is known.
[[nodiscard]] std::vector<scene::Guest> guests_of(const GroupWishes& wishes);

/// How many stand in each row, front to back; they sum up to people.
///
/// staggered  then neighbouring rows differ by one where that can be, so that a row centred behind
///            another looks through its gaps; else as even as possible with the longer ones behind
[[nodiscard]] std::vector<int> row_counts(int people, int rows, bool staggered);

/// The small in front, the tall behind; in each row the taller towards the middle.
[[nodiscard]] std::vector<std::vector<scene::Guest>>
rows_by_stature(std::vector<scene::Guest> guests, const std::vector<int>& counts);

/// Whether who stands where is a matter of more than stature: somebody is known to belong to
/// others, to be old, to sit or kneel, to carry, or is the one celebrated.
[[nodiscard]] bool has_company(const std::vector<scene::Guest>& guests,
                               const std::vector<scene::Guest>& carried);

/// Whether some have a seat and others, who are not small, have not, so that they make two rows.
[[nodiscard]] bool has_sitters_and_others(const std::vector<scene::Guest>& guests,
                                          const std::vector<scene::Guest>& carried);

/// What rows there are to be.
struct RowsAsked {
    int rows = 1;
    bool exactly = false;  ///< Otherwise fewer where the front row has become so long.
    bool staggered = true;
    figures::Posture front = figures::Posture::standing;
};

/// As rows_of_company() (arrange_company.h) places them. In front stand or sit the celebrated, the
/// eldest, who sits or kneels as asked for, and, before a row that sits or kneels, small children,
/// as many as go into twice the length of a row.
///
/// Who cannot take the front row's posture gets one of their own: small children and those who
/// carry stand, the eldest do not kneel.
///
/// returns  rows from front to back, none of them empty
[[nodiscard]] std::vector<std::vector<scene::Guest>>
rows_by_company(std::vector<scene::Guest> guests, const std::vector<scene::Guest>& carried,
                const RowsAsked& asked);

/// The stature that is given, or the middle one of the age.
[[nodiscard]] double stature_m_of(const scene::Guest& guest);

}  // namespace backrow::arranging
