#include "base/problem.h"

#include <catch2/catch.hpp>

using namespace backrow;

TEST_CASE("a problem says where, what and how to mend it, on one line", "[base][property]") {
    const Problem problem{
        {"choir.toml", 12, 1}, "unknown key `stature_cm`", "did you mean `stature_m`?"};
    CHECK(to_line(problem) ==
          "choir.toml:12:1: unknown key `stature_cm`; did you mean `stature_m`?");
}

TEST_CASE("a problem of the whole file has no line", "[base][property]") {
    CHECK(to_line(Problem{{"choir.toml", 0, 0}, "no such file", ""}) == "choir.toml: no such file");
    CHECK(to_line(Problem{{}, "nobody is in the picture", ""}) == "nobody is in the picture");
}

TEST_CASE("what the user typed cannot break a message into lines", "[base][regression]") {
    CHECK(to_line(Problem{{"a\nb.toml", 1, 2}, "bad\tname", ""}) == "a b.toml:1:2: bad name");
    CHECK(to_line(MachineFailure{"disk\r\nfull", "make room"}) == "disk  full; make room");
}
