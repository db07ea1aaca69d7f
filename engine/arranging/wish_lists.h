#pragma once

// What is known of people, as it is typed: "Anna,Ben,Cleo;Dora,Emil", "Anna=71", "Mia=Anna". Spaces
// round names do not count; a name with a comma, semicolon, plus or equals sign in it cannot be
// said this way, but can be changed in the file.

#include "scene/group_plan.h"

#include "base/problem.h"

#include <string>
#include <vector>

namespace backrow::arranging {

/// Lists as options have them; empty where nothing is said.
struct WishLists {
    std::string families{};    ///< Names with commas, families with semicolons between.
    std::string couples{};     ///< "Anna+Ben,Dora+Emil"; of three, "Dora+Emil+Finn".
    std::string ages{};        ///< "Anna=71,Mia=2"
    std::string seated{};      ///< Names.
    std::string kneeling{};    ///< Names.
    std::string carried{};     ///< The child, then who carries it: "Mia=Anna".
    std::string celebrated{};  ///< Names.
};

/// What they say of each person together, in the order in which people are named first. A family is
/// called after the first of it.
///
/// errors  words that are no such list, somebody in two families, sitting and kneeling, of two
///         ages, carried by two; Place::file is the option, "--ages"
[[nodiscard]] Checked<std::vector<scene::Guest>> known_from(const WishLists& lists);

}  // namespace backrow::arranging
