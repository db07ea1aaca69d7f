#pragma once

// A group that stands already, arranged again: rows stay where they are and as long as they are,
// but for a place where a pair would be torn apart; who stands in them, and in which order, follows
// the rules of a new group (arrange_company.h). Looks, names, relations and everything else stay.

#include "arranging/arrange.h"
#include "scene/scene.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::arranging {

struct Rearrangement {
    std::vector<std::string> values;    ///< As --set takes them; none where all stand so already.
    std::vector<std::string> moved;     ///< Names of those who get another place.
    std::vector<Choice> choices;        ///< What was decided, and why.
    std::vector<std::string> cautions;  ///< Sentences.
};

/// Whoever is pinned keeps row, place and steps aside; so does whoever stands alone, and a carried
/// child stays with the one who carries it. Whoever changes the place takes back their steps aside;
/// in another row they take the posture and the lean that prevail there, small children those of
/// the small; whoever carries, or cannot take the posture for their clothes or arms, stands.
///
/// row  counted from 0, as Person::row: in this row alone the order changes; none: all rows
[[nodiscard]] Rearrangement rearrange(const scene::Scene& scene, std::optional<int> row = {});

}  // namespace backrow::arranging
