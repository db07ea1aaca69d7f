#include "measure/identities.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::measure;

TEST_CASE("a person's pixels are counted wherever they lie", "[measure][property]") {
    Image<std::uint32_t> identities(6, 5, 0);
    identities.at(1, 1) = 7;
    identities.at(5, 1) = 7;
    identities.at(0, 3) = 7;
    identities.at(2, 2) = 70;
    CHECK(count_identity(identities, 7) == 3);
    CHECK(count_identity(identities, 70) == 1);
    CHECK(count_identity(identities, 0) == 26);
    CHECK(count_identity(identities, 8) == 0);
    CHECK(count_identity(Image<std::uint32_t>{}, 0) == 0);
}

TEST_CASE("a face's height runs from its first row to past its last", "[measure][property]") {
    Image<std::uint32_t> identities(6, 5, 0);
    identities.at(5, 1) = 7;
    identities.at(0, 3) = 7;
    identities.at(3, 0) = 9;
    identities.at(5, 4) = 11;
    const auto check = [&](std::uint32_t identity, int first, int end) {
        const RowSpan rows = rows_of_identity(identities, identity);
        CHECK(rows.first == first);
        CHECK(rows.end == end);
    };
    check(7, 1, 4);
    check(9, 0, 1);
    check(11, 4, 5);
    check(0, 0, 5);
    check(8, 0, 0);
    CHECK(rows_of_identity(Image<std::uint32_t>{}, 1).end == 0);
}
