#include "base/files_read.h"

#include <catch2/catch.hpp>

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

using namespace backrow;
namespace fs = std::filesystem;

TEST_CASE("a file that was read is known by every name, and only while it is there",
          "[base][property]") {
    std::string name = (fs::temp_directory_path() / "backrow-read-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    const fs::path folder{name};
    const fs::path photo = folder / "place.jpg";
    std::ofstream{photo} << "light";
    std::ofstream{folder / "other.jpg"} << "light";
    fs::create_symlink(photo, folder / "link.jpg");
    fs::create_hard_link(photo, folder / "second.jpg");
    CHECK_FALSE(was_read(photo));

    std::string text;
    open_to_read(photo) >> text;
    CHECK(text == "light");
    for (const char* spelt : {"place.jpg", "link.jpg", "second.jpg", "./place.jpg"})
        CHECK(was_read(folder / spelt));
    CHECK(was_read((folder / "..").string() + "/" + folder.filename().string() + "/place.jpg"));
    CHECK_FALSE(was_read(folder / "other.jpg"));
    CHECK_FALSE(was_read(folder / "new.jpg"));

    // An editor puts another file in its place: the name still counts.
    fs::rename(folder / "other.jpg", photo);
    CHECK(was_read(photo));
    CHECK_FALSE(was_read(folder / "second.jpg"));
    fs::remove_all(folder);
}
