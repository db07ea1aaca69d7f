#include "figures/head/summit.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow::figures;

TEST_CASE("the crown of a round head is found by looking near it, wherever it lies",
          "[figures][property]") {
    for (int crown = -900; crown <= 900; ++crown) {
        const auto height = [&](int step) { return 120 * std::cos(0.001 * (step - crown)); };
        const Summit found = summit(-900, 900, height);
        CHECK(found.at == crown);
        CHECK(found.value == 120);
    }
}

TEST_CASE("of places that are equally high the first is the crown", "[figures][property]") {
    const auto flat_top = [](int step) { return step >= 3 && step <= 5 ? 1.0 : 0.0; };
    CHECK(summit(-10, 20, flat_top).at == 3);
}
