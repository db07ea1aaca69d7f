#include "source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace backrow::structure;

// The tests beside this one would pass on an empty list.
TEST_CASE("the project's files are found and read", "[structure][property]") {
    const auto files = files_under("engine");
    CHECK(files.size() > 20);
    CHECK(std::ranges::count(files, "engine/base/units.h", &SourceFile::path) == 1);
    CHECK(text_of("engine/base/units.h").find("mm_from_m") != std::string::npos);
    CHECK(files_under("no-such-folder").empty());
    CHECK(text_of("no-such-file").empty());
    for (const char* document : {"README.md", "DEVELOPERS.md", "engine/README.md"})
        CHECK(std::ranges::count(documents(), document, &SourceFile::path) == 1);
}
