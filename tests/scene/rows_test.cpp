#include "scene/rows.h"

#include "../rehearsal/trio.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace backrow;

// Cleo stands alone, half a metre before the row of the two.
TEST_CASE("the group is told row by row, from picture left to right, whoever stands alone for "
          "themselves",
          "[scene][property]") {
    const scene::Scene scene = rehearsal::trio();
    CHECK(as_they_stand(scene, camera_view(scene)) ==
          std::vector<std::vector<std::size_t>>{{0, 1}, {2}});
}
