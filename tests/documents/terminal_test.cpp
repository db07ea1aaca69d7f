#include "documents/terminal.h"

#include <catch2/catch.hpp>

namespace backrow::documents {

TEST_CASE("a terminal finds the program and the scenes, and keeps what is written",
          "[documents][property]") {
    const Terminal terminal;
    CHECK(terminal.run("backrow faces scenes/couple.toml > table").exit_code == 0);
    CHECK(terminal.run("grep -c Amara table").out == "2\n");
    CHECK(terminal.run("echo out; echo err >&2; exit 3").out == "out\nerr\n");
    CHECK(terminal.run("exit 3").exit_code == 3);
}

TEST_CASE("pictures are quick where a document does not say how they are made",
          "[documents][property]") {
    CHECK(quickened("backrow preview a.toml") == "backrow preview a.toml --samples 8 --width 320");
    CHECK(quickened("backrow preview a.toml --width 480") ==
          "backrow preview a.toml --width 480 --samples 8");
    CHECK(quickened("backrow strip a.toml") == "backrow strip a.toml --samples 8");
    CHECK(quickened("backrow faces a.toml") == "backrow faces a.toml");
}

}  // namespace backrow::documents
