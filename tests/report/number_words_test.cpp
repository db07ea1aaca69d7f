#include "report/text/number_words.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace backrow::report;

TEST_CASE("a blur is written with the digits that count, noughts among them",
          "[report][property]") {
    CHECK(two_digits(1.03) == "1.0");
    CHECK(two_digits(0.4) == "0.40");
    CHECK(two_digits(3.62) == "3.6");
    CHECK(two_digits(13.9) == "14");
    CHECK(two_digits(0.052) == "0.052");
    CHECK(two_digits(138.4) == "138");
    CHECK(two_digits(0) == "0");
}

TEST_CASE("what rounds up to the next place is written like what stands there",
          "[report][property]") {
    CHECK(two_digits(9.94) == "9.9");
    CHECK(two_digits(9.96) == "10");
    CHECK(two_digits(0.996) == "1.0");
    CHECK(two_digits(0.0996) == "0.10");
    CHECK(two_digits(99.6) == "100");
}

// Half of the second digit: 5 % of the number where that is a 1, and 5 in 99 at the other end.
TEST_CASE("the number that is read is the number, to half a digit", "[report][property]") {
    for (double number = 0.01; number < 1000; number *= 1.0137) {
        CAPTURE(number);
        CHECK(std::abs(std::stod(two_digits(number)) - number) <= 0.05 * number);
    }
}
