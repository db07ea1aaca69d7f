#include "base/process.h"

#include <catch2/catch.hpp>

#include <sys/wait.h>
#include <unistd.h>

using namespace backrow;

TEST_CASE("this run goes on, one with its number that began at another time does not",
          "[base][property]") {
    const Process here = this_process();
    CHECK(here.number == ::getpid());
    CHECK(still_runs(here));
    CHECK_FALSE(still_runs({.number = here.number, .started = here.started - 1}));
    CHECK_FALSE(still_runs({}));
}

TEST_CASE("a run that has ended no longer goes on", "[base][property]") {
    int talk[2];
    REQUIRE(::pipe(talk) == 0);
    const pid_t child = ::fork();
    if (child == 0) {
        ::close(talk[1]);
        char word = 0;
        ::_exit(::read(talk[0], &word, 1) == 0 ? 0 : 1);  // Waits until the other end is closed.
    }
    REQUIRE(child > 0);
    // It was started no earlier than this one and not much later.
    Process other{.number = child, .started = this_process().started};
    for (int later = 0; later < 1000 && !still_runs(other); ++later)
        ++other.started;
    CHECK(still_runs(other));
    ::close(talk[0]);
    ::close(talk[1]);
    REQUIRE(::waitpid(child, nullptr, 0) == child);
    CHECK_FALSE(still_runs(other));
}
