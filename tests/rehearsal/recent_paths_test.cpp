#include "rehearsal/files/recent_paths.h"

#include "kept_home.h"

#include "base/whole_path.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <filesystem>

using namespace backrow;
using namespace backrow::rehearsal;

TEST_CASE("scenes opened last are listed, the newest first and each once",
          "[rehearsal][property]") {
    const KeptHome home;
    CHECK(recent_paths(Recent::scenes).empty());
    const std::string one = whole_path(home.folder.write("one.toml", ""));
    const std::string two = whole_path(home.folder.write("two.toml", ""));
    note_recent(Recent::scenes, one);
    note_recent(Recent::scenes, two);
    note_recent(Recent::scenes, home.folder.path("./one.toml"));
    CHECK(recent_paths(Recent::scenes) == std::vector{one, two});
    CHECK(recent_paths(Recent::folders).empty());
}

TEST_CASE("a scene that is gone is not listed, and again when it is back",
          "[rehearsal][property]") {
    const KeptHome home;
    const std::string one = whole_path(home.folder.write("one.toml", ""));
    note_recent(Recent::scenes, one);
    std::filesystem::remove(one);
    CHECK(recent_paths(Recent::scenes).empty());
    home.folder.write("one.toml", "");
    CHECK(recent_paths(Recent::scenes) == std::vector{one});
}

TEST_CASE("no more is kept than can be looked through", "[rehearsal][property]") {
    const KeptHome home;
    for (int i = 0; i < 20; ++i)
        note_recent(Recent::scenes, home.folder.write(fmt::format("{}.toml", i), ""));
    const auto paths = recent_paths(Recent::scenes);
    REQUIRE(paths.size() == 12);
    CHECK(std::filesystem::path{paths.front()}.filename() == "19.toml");
    CHECK(std::filesystem::path{paths.back()}.filename() == "8.toml");
}

TEST_CASE("a damaged list of what was used last is no list", "[rehearsal][property]") {
    const KeptHome home;
    const std::string one = whole_path(home.folder.write("one.toml", ""));
    home.folder.write("state/backrow/recent-scenes",
                      "nowhere\n" + std::string(5000, '\0') + "\n" + one + "\n/no/such.toml");
    CHECK(recent_paths(Recent::scenes) == std::vector{one});
}

TEST_CASE("a path over two lines is not kept", "[rehearsal][property]") {
    const KeptHome home;
    note_recent(Recent::scenes, home.folder.write("two\nlines.toml", ""));
    CHECK(recent_paths(Recent::scenes).empty());
}
