#include "scene_file/editing/thing_steps.h"

#include "scene_folder.h"

#include "scene_file/editing/edit_scene_text.h"

#include "base/splitmix64.h"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <array>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::scene_file;

namespace {

const std::string yard = R"(title = "Yard"

[setting]
ground = "paving"  # wet

# Ivy on it.
[[setting.backdrop]]
kind   = "wall"
back_m = 4.0  # paced out

[[setting.backdrop]]
kind   = "trees"
back_m = 30.0

[[row]]
people = ["Odile", "Bram"]

# Lent by the school.
[[model]]
file     = "bench.obj"
across_m = 1.5
)";

const std::string bare = "[[row]]\npeople = [\"Odile\"]\n";

std::string after(const std::vector<std::string>& values, const std::string& text = yard) {
    const auto changed = with_values(text, "yard.toml", values);
    if (!changed)
        FAIL(to_line(changed.error().front()));
    return *changed;
}

std::string with(std::string text, const std::string& now, const std::string& before) {
    const auto at = text.find(before);
    REQUIRE(at != text.npos);
    return text.replace(at, before.size(), now);
}

}  // namespace

TEST_CASE("another backdrop comes after the last and nothing else changes",
          "[scene_file][property]") {
    CHECK(after({"setting.backdrop.2.kind=hedge", "setting.backdrop.2.back_m=9"}) ==
          with(yard, "30.0\n\n[[setting.backdrop]]\nkind   = \"hedge\"\nback_m = 9\n", "30.0\n"));
    CHECK(after({"setting.backdrop.0.kind=hedge"}, bare) ==
          bare + "\n[[setting.backdrop]]\nkind = \"hedge\"\n");
    CHECK(after({"model.0.file=arch.glb"}, bare) == bare + "\n[[model]]\nfile = \"arch.glb\"\n");
    CHECK(after({"model.1.file=arch.glb"}) == yard + "\n[[model]]\nfile     = \"arch.glb\"\n");
}

TEST_CASE("a backdrop or a model that is taken away goes with its lines",
          "[scene_file][property]") {
    CHECK(after({"setting.backdrop.0.kind=\"\""}) ==
          with(yard, "# Ivy on it.\n\n[[setting",
               "# Ivy on it.\n[[setting.backdrop]]\nkind   = \"wall\"\nback_m = 4.0  # paced "
               "out\n\n[[setting"));
    CHECK(
        after({"model.0.file=\"\""}) ==
        with(yard, "school.\n", "school.\n[[model]]\nfile     = \"bench.obj\"\nacross_m = 1.5\n"));
    const std::string without_both =
        after({"setting.backdrop.1.kind=\"\"", "setting.backdrop.0.kind=\"\""});
    CHECK(without_both.find("backdrop") == without_both.npos);
    CHECK(without_both.find("ground = \"paving\"  # wet\n") != without_both.npos);
}

TEST_CASE("a backdrop that comes and goes again leaves no trace", "[scene_file][property]") {
    for (const std::string& text : {yard, bare, bare + "[setting]\n", "# Nobody else.\n" + bare}) {
        CAPTURE(text);
        const int count = text == yard ? 2 : 0;
        const auto key = [&](const char* what) {
            return fmt::format("setting.backdrop.{}.{}", count, what);
        };
        CHECK(after({key("kind=beach"), key("back_m=5"), key("kind=\"\"")}, text) == text);
        const std::string model = fmt::format("model.{}.file=", text == yard ? 1 : 0);
        CHECK(after({model + "arch.glb", model + "\"\""}, text) == text);
    }
}

TEST_CASE("what was said of somebody's looks is taken back with its line",
          "[scene_file][property]") {
    const std::string said = bare + "\n[[person]]\nname = \"Odile\"\nskin = \"dark\"  # hers\n";
    const std::string unsaid = bare + "\n[[person]]\nname = \"Odile\"\n";
    CHECK(after({"person.Odile.skin=\"\""}, said) == unsaid);
    CHECK(after({"person.Odile.hair=\"\""}, said) == said);
    CHECK(after({"person.Odile.skin=\"\""}, bare) == bare);
    CHECK(after({"person.Odile.top=blouse", "person.Odile.top=\"\""}, said) == said);
    const scene_file::SceneFolder folder;
    CHECK(folder.messages(bare, {"person.Nobody.skin=\"\""}).size() == 1);
    // Of a body nothing can be unsaid but by its owner.
    CHECK_FALSE(folder.messages(bare, {"person.Odile.posture=\"\""}).empty());
}

TEST_CASE("lists in brackets keep their brackets", "[scene_file][property]") {
    const std::string listed =
        "[setting]\nbackdrop = [{ kind = \"wall\" }, { kind = \"trees\" }]\n" + bare;
    CHECK(after({"setting.backdrop.2.kind=hedge"}, listed) ==
          with(listed, "\"trees\" }, { kind = \"hedge\" }]", "\"trees\" }]"));
    CHECK(after({"setting.backdrop.0.kind=\"\""}, listed) ==
          with(listed, "", "{ kind = \"wall\" }, "));
    // A table in one line takes no [[table]] behind it: that is said, and nothing is spoilt.
    const std::string closed = "setting = { ground = \"sand\" }\n" + bare;
    CHECK_FALSE(with_values(closed, "x.toml", {"setting.backdrop.0.kind=hedge"}));
}

TEST_CASE("without a panorama there is the built sky", "[scene_file][property]") {
    const std::string all_round = with(yard, "wet\npanorama = \"sky.png\"\n", "wet\n");
    CHECK(after({"setting.panorama=\"\""}, all_round) == yard);
    CHECK(after({"setting.panorama=\"\""}) == yard);
}

TEST_CASE("a thing that is not there is told so, in one line", "[scene_file][property]") {
    const SceneFolder folder;
    CHECK(folder.messages(bare, {"setting.backdrop.0.kind=\"\""}) ==
          std::vector<std::string>{"--set setting.backdrop.0.kind=\"\": there is no `backdrop` "
                                   "number 0; this scene has 0, counted from 0"});
    CHECK(folder.messages(bare, {"model.3.file=\"\""}) ==
          std::vector<std::string>{"--set model.3.file=\"\": there is no `model` number 3; this "
                                   "scene has 0, counted from 0"});
    CHECK(folder.messages(bare, {"setting.backdrop.0.kind=hegde"}).size() == 1);
    CHECK(folder.messages(bare, {"model.0.file=arch.glb"}).front().find("does not exist") !=
          std::string::npos);
    CHECK(folder.messages("model = 3\n" + bare, {"model.0.file=\"\""}).size() >= 1);
    CHECK(folder.messages("setting = 3\n" + bare, {"setting.backdrop.0.kind=hedge"}).size() >= 1);
}

// Written into the file, a value makes what it makes with --set: a hundred values by lot, one after
// the other, on a file that becomes stranger and stranger.
TEST_CASE("a file has the backdrops that --set says, drawn by lot", "[scene_file][property]") {
    const SceneFolder folder;
    constexpr std::array kinds{"wall", "hedge", "beach", "street", "hall"};
    std::uint64_t number = 0;
    const auto lot = [&](std::size_t below) { return splitmix64(number += counter_step) % below; };
    std::string text = bare;
    int taken = 0;
    for (int i = 0; i < 100; ++i) {
        const auto scene = folder.read(text);
        REQUIRE(scene);
        const std::size_t count = scene->setting.backdrops.size();
        const std::size_t which = lot(count + 1);
        const auto key = [&](std::string_view what) {
            return fmt::format("setting.backdrop.{}.{}", which, what);
        };
        const std::vector<std::string> any{
            key(fmt::format("kind={}", kinds[lot(kinds.size())])), key("kind=\"\""),
            key(fmt::format("back_m={}", 1 + lot(50))), "setting.ground=sand",
            fmt::format("light.scene_ev100={}", lot(16))};
        const std::string& value = any[lot(any.size())];
        CAPTURE(text, value);
        const auto changed = with_values(text, "x.toml", {value});
        const auto set = folder.read(text, {value});
        const auto read_back = changed ? folder.read(*changed) : set;
        CHECK((changed && read_back) == set.has_value());
        if (!changed || !read_back || !set)
            continue;
        CHECK(read_back->setting == set->setting);
        CHECK(read_back->light == set->light);
        taken += read_back->setting.backdrops.size() < count;
        text = *changed;
    }
    CHECK(taken > 3);
}
