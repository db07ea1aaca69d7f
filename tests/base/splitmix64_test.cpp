#include "base/splitmix64.h"

#include <catch2/catch.hpp>

#include <array>
#include <cstdint>

using namespace backrow;

// Source: the outputs commonly printed for [SPLITMIX] started at 1234567, from memory. Exact: whole
// numbers.
TEST_CASE("the hash gives the published run of SplitMix64", "[base][from-memory]") {
    constexpr std::uint64_t start = 1234567;
    constexpr std::array<std::uint64_t, 5> printed{6457827717110365317U, 3203168211198807973U,
                                                   9817491932198370423U, 4593380528125082431U,
                                                   16408922859458223821U};
    for (std::uint64_t i = 0; i < printed.size(); ++i) {
        CHECK(splitmix64(start + (i + 1) * counter_step) == printed[i]);
    }
}
