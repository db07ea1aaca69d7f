#include "base/whole_path.h"

#include "folder.h"

#include <fstream>

using namespace backrow;

TEST_CASE("two spellings of one place are one path, whether or not a file is there",
          "[base][property]") {
    namespace fs = std::filesystem;
    const Folder folder;
    fs::create_directory(folder / "scenes");
    fs::create_directory_symlink(folder / "scenes", folder / "link");
    const std::string plain = whole_path(folder / "scenes/choir.toml");
    CHECK(whole_path(folder / "scenes/../scenes/./choir.toml") == plain);
    CHECK(whole_path(folder / "link/choir.toml") == plain);
    CHECK(whole_path("choir.toml") == whole_path((fs::current_path() / "choir.toml").string()));
}
