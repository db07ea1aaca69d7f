#include "scene_file/reading/read_scene.h"
#include "scene_file/toml/key_depth.h"

#include "scene_folder.h"

#include <fmt/format.h>

#include <catch2/catch.hpp>

#include <sys/stat.h>

namespace backrow::scene_file {

using namespace backrow::scene;
namespace {

using Messages = std::vector<std::string>;

Messages opening(const SceneFolder& folder, const std::string& path) {
    const auto scene = read_scene(path);
    return scene ? Messages{} : folder.lines(scene.error());
}

}  // namespace

TEST_CASE("a file that is not there, or no file, is told apart", "[scene_file][property]") {
    const SceneFolder folder;
    CHECK(opening(folder, folder.path("none.toml")) ==
          Messages{"none.toml: there is no such scene file; check the name and the folder"});
    CHECK(opening(folder, folder.path("")) ==
          Messages{": this is a folder; name a scene file inside it"});

    const std::string pipe = folder.path("pipe.toml");
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    CHECK(opening(folder, pipe) ==
          Messages{"pipe.toml: this is not an ordinary file; name a scene file on a disk"});
}

TEST_CASE("a file that may not be read is told so", "[scene_file][property]") {
    if (::geteuid() == 0) {
        WARN("the superuser may read every file: nothing to see here");
        return;
    }
    const SceneFolder folder;
    const std::string path = folder.write("shut.toml", "title = \"x\"\n");
    REQUIRE(::chmod(path.c_str(), 0) == 0);
    CHECK(opening(folder, path) ==
          Messages{"shut.toml: the scene file may not be read; allow reading it, or copy it to a "
                   "folder of your own"});
}

TEST_CASE("a file too large to be a scene is refused unread", "[scene_file][property]") {
    const SceneFolder folder;
    CHECK(
        folder.messages(std::string((4u << 20) + 1, '#')) ==
        Messages{"x.toml: the file is larger than 4 MB; name a scene file, which is a text of some "
                 "pages at most"});
    // One byte less is read, and found to be a comment.
    CHECK(
        folder.messages(std::string(4u << 20, '#')) ==
        Messages{"x.toml:1:1: nobody is in the picture; add a [[row]] with people = [\"…\"], or a "
                 "[[person]]"});
}

TEST_CASE("a slip in TOML is told with its place and how to mend it", "[scene_file][property]") {
    const SceneFolder folder;
    CHECK(folder.messages("title = \"Quay\"\n[camera]\nf_number 1.8\n") ==
          Messages{
              "x.toml:3:10: cannot read this as TOML: expected '=', saw '1'; write key = value"});
    CHECK(folder.messages("[setting]\nground = grass\n") ==
          Messages{"x.toml:2:10: cannot read this as TOML: could not determine value type; words "
                   "stand in quotation marks, numbers without"});
    CHECK(folder.messages("title = \"a\"\ntitle = \"b\"\n") ==
          Messages{
              "x.toml:2:9: cannot read this as TOML: cannot redefine existing string 'title'; it "
              "was written before in this file; keep one of the two"});
    CHECK(
        folder.messages("[[row]]\npeople = [\"Odile\", \"Bram\"") ==
        Messages{"x.toml:2:26: cannot read this as TOML: encountered end-of-file; something opened "
                 "here is never closed"});
    CHECK(folder.messages("title = \"\xff\"\n") ==
          Messages{"x.toml:1:9: cannot read this as TOML: Encountered invalid utf-8 sequence; save "
                   "the file as plain text in UTF-8"});
}

TEST_CASE("numbers that TOML does not know are told as it does", "[scene_file][property]") {
    const SceneFolder folder;
    const auto mend = [&](const std::string& line) {
        const auto told = folder.messages("[camera]\n" + line + "\n");
        REQUIRE(told.size() == 1);
        return told[0].substr(told[0].rfind("; ") + 2);
    };
    CHECK(mend("f_number = 2,8") == "write 2.8: a point, not a comma");
    CHECK(mend("f_number = f/2.8  # wide open") == "write 2.8, or f/2.8 in quotation marks");
    CHECK(mend("shutter_s = 1/200") == "write 0.005, or 1/200 in quotation marks");
    CHECK(mend("distance_m = 30 ft") == "write 9.144, or 30 ft in quotation marks");
    CHECK(mend("iso = 1,600") == "write 1600 or 1.600, without a comma");
    CHECK(mend("iso = many") == "words stand in quotation marks, numbers without");
}

TEST_CASE("brackets and dots nested without end are refused, not followed",
          "[scene_file][property]") {
    const SceneFolder folder;
    const auto nested = folder.messages("title = " + std::string(100'000, '['));
    REQUIRE(nested.size() == 1);
    CHECK_THAT(
        nested[0],
        Catch::StartsWith("x.toml:1:") &&
            Catch::EndsWith("exceeded maximum nested value depth of 256; remove some brackets"));

    std::string dotted;
    for (int i = 0; i < 1'000'000; ++i)
        dotted += "a.";
    const std::string said =
        "a key of more than 16 parts; no key of this program has more than three";
    CHECK(folder.messages(dotted + "a = 1\n") == Messages{"x.toml:1:32: " + said});
    CHECK(folder.messages("\n\n[" + dotted + "a]\n") == Messages{"x.toml:3:33: " + said});
    // Hidden behind strings that look as if they went on.
    CHECK(folder.messages("x = [\"\"\"a\"\"\"\", {" + dotted + "a = 1}]\n") ==
          Messages{fmt::format("x.toml:1:{}: {}", 16 + 32, said)});
    CHECK(folder.messages("x = ['\\', {" + dotted + "a = 1}]\n") ==
          Messages{fmt::format("x.toml:1:{}: {}", 11 + 32, said)});
}

TEST_CASE("dots in titles and comments are only dots", "[scene_file][property]") {
    const std::string dots(200, '.');
    CHECK_FALSE(first_overlong_key("# " + dots + "\ntitle = \"" + dots + "\" # " + dots + "\n"));
    CHECK_FALSE(first_overlong_key("title = '''\n" + dots + "\n'''\n"));
    CHECK_FALSE(first_overlong_key("title = \"\"\"\n\\\"\"\"" + dots + "\n\"\"\"\n"));
    CHECK_FALSE(
        first_overlong_key("a.b.c = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 1.0, 2.0, "
                           "3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0]\n"));
}

TEST_CASE("a file of nothing but mistakes tells the first fifty and counts the rest",
          "[scene_file][property]") {
    const SceneFolder folder;
    std::string text;
    for (int i = 0; i < 5000; ++i)
        text += fmt::format("k{:04} = 1\n", i);
    const Messages told = folder.messages(text);
    REQUIRE(told.size() == 51);
    CHECK_THAT(told.front(), Catch::StartsWith("x.toml:1:1: unknown key `k0000`"));
    CHECK(told.back() ==
          "x.toml:50:1: and 4950 more problems after this; mend the ones above first");
}

}  // namespace backrow::scene_file
