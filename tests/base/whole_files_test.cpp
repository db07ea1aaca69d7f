#include "base/assets.h"
#include "base/whole_files.h"

#include "folder.h"

#include <catch2/catch.hpp>

#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <thread>
#include <vector>

using namespace backrow;
namespace fs = std::filesystem;

namespace {

std::string content(const std::string& path) {
    std::ifstream file{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace

TEST_CASE("files appear together when they are kept, and not before", "[base][property]") {
    const Folder folder;
    PendingFiles files;
    REQUIRE(files.add(folder / "one.txt", "first"));
    REQUIRE(files.add(folder / "two.txt", "second"));
    CHECK_FALSE(fs::exists(folder / "one.txt"));
    REQUIRE(files.keep());
    CHECK(content(folder / "one.txt") == "first");
    CHECK(content(folder / "two.txt") == "second");
    CHECK(folder.entries() == 2);
}

TEST_CASE("what is not kept leaves nothing, and the old file as it was", "[base][property]") {
    const Folder folder;
    std::ofstream{folder / "old.txt"} << "precious";
    {
        PendingFiles files;
        REQUIRE(files.add(folder / "old.txt", "new"));
        REQUIRE(files.add(folder / "other.txt", "new"));
    }
    CHECK(content(folder / "old.txt") == "precious");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a replaced file keeps its rights, and a link stays a link", "[base][property]") {
    const Folder folder;
    std::ofstream{folder / "old.txt"} << "old";
    fs::permissions(folder / "old.txt", fs::perms::owner_read | fs::perms::owner_write);
    fs::create_symlink(folder / "old.txt", folder / "link.txt");
    PendingFiles files;
    REQUIRE(files.add(folder / "link.txt", "new"));
    REQUIRE(files.keep());
    CHECK(fs::is_symlink(folder / "link.txt"));
    CHECK(content(folder / "old.txt") == "new");
    CHECK(fs::status(folder / "old.txt").permissions() ==
          (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("two who write the same file at once leave one of them whole", "[base][property]") {
    const Folder folder;
    PendingFiles one;
    PendingFiles other;
    REQUIRE(one.add(folder / "same.txt", "of the one"));
    REQUIRE(other.add(folder / "same.txt", "of the other"));
    REQUIRE(one.keep());
    CHECK(content(folder / "same.txt") == "of the one");
    REQUIRE(other.keep());
    CHECK(content(folder / "same.txt") == "of the other");
    CHECK(folder.entries() == 1);
}

TEST_CASE("new files have the rights that the user wants, on however many threads",
          "[base][regression]") {
    const Folder folder;
    const mode_t before = ::umask(027);
    const auto write_many = [&](int who) {
        for (int i = 0; i < 100; ++i) {
            PendingFiles files;
            const std::string name = std::to_string(who) + "-" + std::to_string(i);
            if (!files.add(folder / name.c_str(), "text") || !files.keep())
                return;
        }
    };
    {
        std::vector<std::jthread> threads;
        for (int who = 0; who < 4; ++who)
            threads.emplace_back(write_many, who);
    }
    ::umask(before);
    CHECK(folder.entries() == 400);
    for (const auto& file : fs::directory_iterator{folder / "."})
        CHECK(fs::status(file).permissions() ==
              (fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read));
}

TEST_CASE("a folder that is missing or named as a file is refused in words", "[base][property]") {
    const Folder folder;
    const auto missing = check_writable(folder / "nowhere/picture.png");
    REQUIRE_FALSE(missing);
    CHECK(missing.error().what == "cannot write " + (folder / "nowhere/picture.png") +
                                      ": there is no folder " + (folder / "nowhere"));
    const auto is_folder = check_writable(folder / ".");
    REQUIRE_FALSE(is_folder);
    CHECK(is_folder.error().what.find("Is a directory") != std::string::npos);
    CHECK(check_writable(folder / "picture.png"));
    CHECK(folder.entries() == 0);
}

TEST_CASE("a device is written to, never replaced", "[base][regression]") {
    PendingFiles files;
    REQUIRE(files.add("/dev/null", "into the void"));
    REQUIRE(files.keep());
    CHECK(fs::is_character_file("/dev/null"));
}

TEST_CASE("the program finds its own files, or says where it looked", "[base][property]") {
    const auto found = find_asset("shaders/lens.glsl");
    REQUIRE(found);
    CHECK(read_text(*found)->find("Landing landing(") != std::string::npos);
    const auto missing = find_asset("shaders/none.glsl");
    REQUIRE_FALSE(missing);
    CHECK(missing.error().what.find("share/backrow/shaders/none.glsl") != std::string::npos);
}
