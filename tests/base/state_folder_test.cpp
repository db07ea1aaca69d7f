#include "base/state_folder.h"

#include "folder.h"

#include <cstdlib>

using namespace backrow;

namespace {

/// The environment of a test, put back after it.
struct Environment {
    Folder folder;

    Environment() { ::setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1); }
    ~Environment() { ::unsetenv("XDG_STATE_HOME"); }
};

}  // namespace

TEST_CASE("what is kept between runs lies where the system wants such things", "[base][property]") {
    const Environment here;
    CHECK(state_folder() == here.folder / "state/backrow");
    // A path that does not begin at the root is none, says the specification of these folders.
    ::setenv("XDG_STATE_HOME", "somewhere", 1);
    const std::string home = std::getenv("HOME") != nullptr ? std::getenv("HOME") : "";
    ::setenv("HOME", "/home/odile", 1);
    CHECK(state_folder() == "/home/odile/.local/state/backrow");
    ::setenv("HOME", "", 1);
    CHECK_FALSE(state_folder());
    ::setenv("HOME", home.c_str(), 1);
}

TEST_CASE("what is kept comes back, for its owner alone", "[base][property]") {
    namespace fs = std::filesystem;
    const Environment here;
    const fs::path file = *state_folder() / "kept";
    CHECK_FALSE(read_state(file, 100));
    REQUIRE(write_state(file, "one\ntwo\n"));
    CHECK(read_state(file, 100) == "one\ntwo\n");
    CHECK((fs::status(file.parent_path()).permissions() & fs::perms::all) == fs::perms::owner_all);
    // Whoever reads learns that there is more, and no more of it.
    CHECK(read_state(file, 3)->size() > 3);
    CHECK_FALSE(read_state(file.parent_path(), 100));
}

TEST_CASE("where nothing can be kept the machine says why", "[base][property]") {
    const auto kept = write_state("/proc/backrow/kept", "one");
    REQUIRE_FALSE(kept);
    CHECK_THAT(to_line(kept.error()), Catch::Contains("/proc/backrow"));
}
