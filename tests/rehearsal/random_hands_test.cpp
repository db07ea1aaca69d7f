#include "random_starts.h"
#include "run_by_lot.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>

// BACKROW_RANDOM_HANDS=10000 in the environment asks for more actions than a test run has time for.

namespace backrow::rehearsal {
namespace {

constexpr int actions_in_a_run = 200;

int actions_wanted() {
    constexpr int least = 3200;  // Every start once.
    const char* said = std::getenv("BACKROW_RANDOM_HANDS");
    return said == nullptr ? least : std::max(least, std::atoi(said));
}

}  // namespace

TEST_CASE("whatever hands do by lot, nothing is lost and undoing all gives the first text",
          "[rehearsal][property]") {
    const std::vector<Start> all = starts();
    Happened happened;
    int left = actions_wanted();
    for (std::uint64_t seed = 0; left > 0; ++seed) {
        const Start& start = all[seed % all.size()];
        Run run{seed, start.text, start.is_begun, happened};
        const int actions = std::min(left, actions_in_a_run);
        for (int action = 0; action < actions; ++action) {
            CAPTURE(seed, start.what, action);
            run.act();
        }
        CAPTURE(seed, start.what);
        run.undo_all();
        left -= actions;
    }
    CHECK(happened.changes > actions_wanted() / 3);
    CHECK(happened.refusals > 0);
    CHECK(happened.drags_undone > 0);
    CHECK(happened.merges > 0);
    CHECK(happened.clashes > 0);
    CHECK(happened.either_or > 0);
    CHECK(happened.broken_files > 0);
    CHECK(happened.crashes_survived > 0);
    CHECK(happened.steps_forgotten > 0);
}

}  // namespace backrow::rehearsal
