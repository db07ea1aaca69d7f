#include "documents/tables.h"

#include <catch2/catch.hpp>

namespace backrow::documents {

TEST_CASE("a line of a table has its cells", "[documents][property]") {
    CHECK(cells_of("| a | |  | b \\| c | d |") ==
          std::vector<std::string>{"a", "", "", "b | c", "d"});
    CHECK(matches("`a` b `c`", std::regex{"`([^`]+)`"}) == std::vector<std::string>{"a", "c"});
    CHECK(trimmed("  a b ") == "a b");
    CHECK(trimmed("  ").empty());
}

}  // namespace backrow::documents
