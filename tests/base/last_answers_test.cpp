#include "base/last_answers.h"

#include <catch2/catch.hpp>

using namespace backrow;

TEST_CASE("what was asked lately is not worked out again, and what was asked long ago is",
          "[base][property]") {
    LastAnswers<int, int> squares;
    int worked_out = 0;
    const auto ask = [&](int number) {
        return squares(number, [&](int it) {
            ++worked_out;
            return it * it;
        });
    };
    CHECK(ask(3) == 9);
    CHECK(ask(4) == 16);
    CHECK(ask(3) == 9);
    CHECK(worked_out == 2);
    for (int other = 10; other < 30; ++other)
        CHECK(ask(other) == other * other);
    CHECK(worked_out == 22);
    CHECK(ask(3) == 9);
    CHECK(worked_out == 23);
}
