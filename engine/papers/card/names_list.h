#pragma once

// The order of names on a card, in as many columns as make it shortest.

#include "papers/card/card_words.h"
#include "papers/page/page.h"

#include <cstddef>
#include <string>
#include <vector>

namespace backrow::papers {

/// Where a list stands, and how it is lettered.
struct ListPlace {
    double left = 0;
    double top = 0;
    double width_pt = 0;
    Letters letters{};
    bool signs_alone = false;  ///< Verdicts by their signs, which are told above the list.
};

/// No list has more columns.
inline constexpr int most_name_columns = 4;

/// most      lines for people; those that there are more get none
/// returns   how far down it reaches
double draw_names(Page& page, const ListPlace& place, const std::vector<NamesOfRow>& rows,
                  std::size_t most);

}  // namespace backrow::papers
