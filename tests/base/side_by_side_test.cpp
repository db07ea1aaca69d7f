#include "base/side_by_side.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <vector>

using backrow::side_by_side;

TEST_CASE("work that is shared out is done once each, none of it and much of it",
          "[base][property]") {
    for (const std::size_t count : {0u, 1u, 2u, 1000u}) {
        std::vector<std::atomic<int>> done(count);
        side_by_side(count, [&](std::size_t i) { ++done[i]; });
        CHECK(std::ranges::all_of(done, [](const auto& times) { return times == 1; }));
    }
}

TEST_CASE("a part may share out work of its own", "[base][property]") {
    std::atomic<int> done = 0;
    side_by_side(5, [&](std::size_t) { side_by_side(7, [&](std::size_t) { ++done; }); });
    CHECK(done == 5 * 7);
}
