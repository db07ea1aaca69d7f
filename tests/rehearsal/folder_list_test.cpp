#include "rehearsal/files/folder_list.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

const std::vector<std::string> scenes{".toml"};

std::vector<std::string> names_of(const FolderList& list) {
    std::vector<std::string> names;
    for (const FolderEntry& entry : list.entries)
        names.push_back(entry.name + (entry.is_folder ? "/" : ""));
    return names;
}

}  // namespace

TEST_CASE("folders come before files, and names as a hand would file them",
          "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    for (const char* name : {"row 10.toml", "row 9.toml", "Alder.toml", "birch.toml", "row 09.toml",
                             "10.toml", "Row.toml", "zoo/in.toml", "Archive/in.toml"})
        folder.write(name, "");
    CHECK(names_of(list_folder(folder.path(""), scenes)) ==
          std::vector<std::string>{"Archive/", "zoo/", "10.toml", "Alder.toml", "birch.toml",
                                   "row 09.toml", "row 9.toml", "row 10.toml", "Row.toml"});
}

TEST_CASE("only what can be chosen is listed", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    for (const char* name :
         {"choir.toml", "CHOIR.TOML", "notes.txt", ".hidden.toml", ".git/in.toml"})
        folder.write(name, "");
    REQUIRE(::mkfifo(folder.path("pipe.toml").c_str(), 0600) == 0);
    std::filesystem::create_symlink("nowhere", folder.path("broken.toml"));
    std::filesystem::create_symlink("choir.toml", folder.path("link.toml"));
    std::filesystem::create_directory_symlink(".git", folder.path("way"));
    CHECK(names_of(list_folder(folder.path(""), scenes)) ==
          std::vector<std::string>{"way/", "CHOIR.TOML", "choir.toml", "link.toml"});
    CHECK(list_folder(folder.path(""), {}).entries.size() == 5);
}

TEST_CASE("a folder that cannot be read says so", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    const FolderList list = list_folder(folder.path("nowhere"), scenes);
    CHECK(list.entries.empty());
    CHECK_THAT(list.complaint, Catch::Contains("cannot be read"));
    CHECK_THAT(list_folder(folder.write("file.toml", ""), scenes).complaint,
               Catch::Contains("cannot be read"));
    CHECK(list_folder(folder.path(""), scenes).complaint.empty());
}

TEST_CASE("a folder of thousands of files is listed whole and in order", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    constexpr int count = 3000;
    for (int i = 0; i < count; ++i)
        folder.write(fmt::format("frame {}.toml", (i * 7) % count), "");
    const FolderList list = list_folder(folder.path(""), scenes);
    REQUIRE(list.entries.size() == count);
    for (int i = 0; i < count; ++i)
        if (list.entries[static_cast<std::size_t>(i)].name != fmt::format("frame {}.toml", i))
            FAIL("out of order from " << i);
}

TEST_CASE("names of every kind have one order", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    for (const char* name :
         {"a1b", "A1b", "a01b", "a1", "a", "1", "01", "001", "é", "Ա", "a1a", "aa",
          "99999999999999999999999999", "100000000000000000000000000", "\xff"})
        folder.write(std::string{name} + ".toml", "");
    const auto names = names_of(list_folder(folder.path(""), scenes));
    CHECK(names.size() == 15);
    const auto at = [&](const char* name) { return std::ranges::find(names, name); };
    CHECK(at("99999999999999999999999999.toml") < at("100000000000000000000000000.toml"));
    CHECK(at("a1a.toml") < at("a1b.toml"));
    CHECK(names == names_of(list_folder(folder.path(""), scenes)));
}

TEST_CASE("a list knows when it is out of date", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    folder.write("one.toml", "");
    const FolderList list = list_folder(folder.path(""), scenes);
    CHECK_FALSE(is_out_of_date(list));
    folder.write("two.toml", "");
    std::filesystem::last_write_time(folder.path(""), list.as_of + std::chrono::seconds{1});
    CHECK(is_out_of_date(list));
}
