#include "base/file_endings.h"

#include <catch2/catch.hpp>

using namespace backrow;

TEST_CASE("a file is known by its ending, in capitals or not", "[base][property]") {
    CHECK(ends_in("family.jpg", ".jpg"));
    CHECK(ends_in("FAMILY.JPG", ".jpg"));
    CHECK_FALSE(ends_in("family.jpg.png", ".jpg"));
    CHECK_FALSE(ends_in("jpg", ".jpg"));
}
