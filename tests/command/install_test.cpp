#include "running.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>

namespace backrow::command {
namespace {

namespace fs = std::filesystem;

std::string prefix_in(const Folder& folder) {
    const std::string prefix = folder / "prefix";
    const Ran installed = run({"--install", BACKROW_BUILD_DIR, "--prefix", prefix},
                              {.program = BACKROW_CMAKE, .folder = folder / "."});
    CAPTURE(installed.out, installed.err);
    REQUIRE(installed.exit_code == 0);
    return prefix;
}

/// Paths of all files below a folder, from there.
std::set<std::string> files_below(const fs::path& folder) {
    std::set<std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator{folder})
        if (entry.is_regular_file())
            files.insert(fs::relative(entry.path(), folder).generic_string());
    return files;
}

}  // namespace

// Documents would lead nowhere there: they name one another and the sources.
TEST_CASE("what is installed is what the program reads, and no document", "[command][property]") {
    const Folder folder;
    const std::string prefix = prefix_in(folder);
    std::set<std::string> read{"bin/backrow"};
    for (const std::string part : {"scenes", "shaders"})
        for (const std::string& file : files_below(fs::path{BACKROW_SOURCE_DIR} / part))
            if (!file.ends_with(".md") && !file.starts_with("pictures/"))
                read.insert("share/backrow/" + part + "/" + file);
    CHECK(read.size() > 30);
    for (const std::string& file :
         files_below(fs::path{BACKROW_SOURCE_DIR} / "engine/papers/words"))
        if (file.ends_with(".po"))
            read.insert("share/backrow/words/" + fs::path{file}.replace_extension("mo").string());
    for (const std::string& file :
         files_below(fs::path{BACKROW_SOURCE_DIR} / "engine/papers/client"))
        if (file.ends_with(".css") || file.ends_with(".js"))
            read.insert("share/backrow/client/" + file);
    CHECK(files_below(prefix) == read);
}

TEST_CASE("the installed program draws an installed scene with its own shaders",
          "[command][property]") {
    const Folder folder;
    const std::string prefix = prefix_in(folder);
    fs::create_directory(folder / "elsewhere");
    const Circumstances installed{.program = prefix + "/bin/backrow",
                                  .folder = folder / "elsewhere"};
    const std::string scene = prefix + "/share/backrow/scenes/couple.toml";
    const Words words_of_it =
        words("preview", scene, {"-o", "couple.png", "--width", "32", "--samples", "1"});
    const Ran ran = run(words_of_it, installed);
    CAPTURE(ran.err);
    CHECK(ran.exit_code == 0);
    CHECK(fs::exists(folder / "elsewhere/couple.png"));

    // The source tree still has a good copy of the shader that is broken here: were it used, nobody
    // would notice.
    const std::string shader = prefix + "/share/backrow/shaders/develop.frag";
    REQUIRE(fs::exists(shader));
    std::ofstream{shader} << "#version 450\nno shader at all\n";
    const Ran broken = run(words_of_it, installed);
    CHECK(broken.exit_code == 3);
    CHECK_THAT(broken.err, Catch::Contains("develop.frag"));
    CHECK(broken.out.empty());
}

TEST_CASE("the program may be moved with its prefix, and be called through a link",
          "[command][property]") {
    const Folder folder;
    fs::rename(prefix_in(folder), folder / "moved");
    fs::create_symlink(folder / "moved/bin/backrow", folder / "link");
    std::ofstream{folder / "moved/share/backrow/shaders/develop.frag"} << "no shader at all\n";
    const Ran broken = run(words("preview", demo("couple.toml"),
                                 {"-o", folder / "x.png", "--width", "32", "--samples", "1"}),
                           {.program = folder / "link"});
    CHECK(broken.exit_code == 3);
    CHECK_THAT(broken.err, Catch::Contains("develop.frag"));
    CHECK(folder.entries() == std::vector<std::string>{"link", "moved"});
}

}  // namespace backrow::command
