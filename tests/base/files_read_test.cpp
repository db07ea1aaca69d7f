#include "base/files_read.h"

#include "folder.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using namespace backrow;
namespace fs = std::filesystem;

TEST_CASE("a file that was read is known by every name, and only while it is there",
          "[base][property]") {
    const Folder home;
    const fs::path folder = fs::path{home / "place.jpg"}.parent_path();
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
}
