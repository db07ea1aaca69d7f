#pragma once

// What a stage takes over from one that was built before it.

#include "stage/made_from.h"
#include "stage/stage.h"

#include <algorithm>
#include <iterator>
#include <variant>
#include <vector>

namespace backrow::stage {

/// Copies of the earlier stage's parts that were made from this, in their order; none if there are
/// none.
template <class Made>
[[nodiscard]] std::vector<Part> earlier_parts(const Stage& earlier, const Made& made) {
    const auto same = std::ranges::find_if(earlier.parts, [&](const Part& part) {
        const Made* from = part.made_from ? std::get_if<Made>(part.made_from.get()) : nullptr;
        return from && *from == made;
    });
    std::vector<Part> parts;
    if (same != earlier.parts.end())
        std::ranges::copy_if(earlier.parts, std::back_inserter(parts),
                             [&](const Part& part) { return part.made_from == same->made_from; });
    return parts;
}

}  // namespace backrow::stage
