#include "base/missing_folder.h"

#include "folder.h"

#include <catch2/catch.hpp>

namespace backrow {

TEST_CASE("of a path the first folder is named that is not there", "[base][property]") {
    const Folder folder;
    CHECK(missing_folder(folder / "x.png").empty());
    CHECK(missing_folder("x.png").empty());
    CHECK(missing_folder("/x.png").empty());
    CHECK(missing_folder(folder / "a/b/x.png").string() == folder / "a");
    CHECK(missing_folder("not-here/x.png").string() == "not-here");
}

}  // namespace backrow
