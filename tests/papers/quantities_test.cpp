#include "papers/words/quantities.h"

#include "groups.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow;
using namespace backrow::papers;

TEST_CASE("feet and inches have their names in German, and are not broken off their numbers",
          "[papers][property]") {
    CHECK(distance_words(4.58, german(), Units::imperial) == "15\u00a0Fuß\u00a00\u00a0Zoll");
    CHECK(distance_words(4.58, Language{}, Units::imperial) == "15\u00a0ft\u00a00\u00a0in");
    CHECK(room_words(0.078, german(), Units::imperial) == "3,1\u00a0Zoll");
    CHECK(distance_words(4.58, german(), Units::metric) == "4,58\u00a0m");
    CHECK(distance_words(INFINITY, german(), Units::metric) == "unendlich");
}

// A pace of 0.75 m is common practice, no source.
TEST_CASE("a way is told in paces, to the nearest half", "[papers][practice]") {
    CHECK(pace_words(0.75, Language{}) == "1\u00a0pace");
    CHECK(pace_words(0.4, Language{}) == "½\u00a0pace");
    CHECK(pace_words(9.4, Language{}) == "12½\u00a0paces");
    CHECK(pace_words(0, Language{}) == "0\u00a0paces");
}
