#include "base/round_numbers.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow;
using Catch::Matchers::WithinRel;

namespace {

/// The step of a list, as a digit between 1 and 10.
double digit_of(double step) {
    return step / std::pow(10.0, std::floor(std::log10(step) + 1e-9));
}

struct Range {
    double low, high;
};

constexpr auto ranges = {Range{2.52, 8.4}, Range{5.4, 27.3},  Range{4.19, 4.21},
                         Range{0.3, 500},  Range{84.8, 85.2}, Range{10, 30},
                         Range{-3, 4.5},   Range{1e-6, 2e-6}, Range{99.99, 10000}};

}  // namespace

TEST_CASE("the marks of an axis are round, evenly spaced and within it", "[base][property]") {
    for (const Range& range : ranges)
        for (const int at_most : {2, 3, 5, 10, 25}) {
            CAPTURE(range.low, range.high, at_most);
            const auto marks = round_numbers(range.low, range.high, at_most);
            CHECK(static_cast<int>(marks.size()) <= at_most);
            const double slack = 1e-6 * (range.high - range.low);
            for (const double mark : marks)
                CHECK((mark >= range.low - slack && mark <= range.high + slack));
            if (marks.size() < 2)
                continue;
            const double step = marks[1] - marks[0];
            const double digit = digit_of(step);
            CHECK((std::abs(digit - 1) < 1e-6 || std::abs(digit - 2) < 1e-6 ||
                   std::abs(digit - 2.5) < 1e-6 || std::abs(digit - 5) < 1e-6));
            for (std::size_t i = 0; i < marks.size(); ++i) {
                CHECK(std::abs(marks[i] - marks[0] - static_cast<double>(i) * step) < slack);
                CHECK(std::abs(marks[i] / step - std::round(marks[i] / step)) < 1e-6);
            }
            // None is missing at either end.
            CHECK(marks.front() - step < range.low + slack);
            CHECK(marks.back() + step > range.high - slack);
        }
}

TEST_CASE("an axis has as many marks as it may", "[base][property]") {
    // Worked by hand: steps of 1 would be 7 from 2.52 to 9.1; steps of 2 are 4, 6, 8.
    CHECK(round_numbers(2.52, 9.1, 7) == std::vector<double>{3, 4, 5, 6, 7, 8, 9});
    CHECK(round_numbers(2.52, 9.1, 6) == std::vector<double>{4, 6, 8});
}

TEST_CASE("an axis that ends on a round number marks it", "[base][property]") {
    const auto marks = round_numbers(0.1, 0.3, 3);
    REQUIRE(marks.size() == 3);
    CHECK_THAT(marks.front(), WithinRel(0.1, 1e-9));
    CHECK_THAT(marks.back(), WithinRel(0.3, 1e-9));
}
