#include "scene_file/editing/edit_scene_text.h"

#include "scene_file/editing/values_at_once.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::scene_file;

namespace {

const std::string choir = R"(# Our choir.
title = "Choir"  # as on the poster

[camera]
focal_length_mm = 85.0   # the long one
f_number        = 2.0

[focus]
on = "Odile"  # the conductor's daughter

[[row]]
back_m = 0.0
people = ["Yuki", "Odile",
          "Bram"]  # small in front

[[person]]  # leans out
name      = "Bram"
age_years = 9

[[setting.backdrop]]
kind = "hedge"
back_m = 9
)";

std::string after(const std::vector<std::string>& overrides, const std::string& text = choir) {
    const auto changed = with_values(text, "choir.toml", overrides);
    if (!changed)
        FAIL(changed.error().front().what);
    return *changed;
}

/// The choir with one passage in place of another.
std::string choir_with(const std::string& now, const std::string& before) {
    std::string text = choir;
    const auto at = text.find(before);
    REQUIRE(at != text.npos);
    return text.replace(at, before.size(), now);
}

}  // namespace

TEST_CASE("a value is changed where it stands, and its comment stays", "[scene_file][property]") {
    CHECK(after({"camera.focal_length_mm=50"}) ==
          choir_with("focal_length_mm = 50   # the long one",
                     "focal_length_mm = 85.0   # the long one"));
    CHECK(after({"title=Harbour choir"}) ==
          choir_with("\"Harbour choir\"  # as", "\"Choir\"  # as"));
    CHECK(after({"row.0.people.1=Ana", "focus.on=Ana"}) ==
          choir_with("on = \"Ana\"", "on = \"Odile\"")
              .replace(after({"focus.on=Ana"}).find("\"Odile\","), 8, "\"Ana\","));
    CHECK(after({"setting.backdrop.0.back_m=12"}) == choir_with("back_m = 12", "back_m = 9"));
}

TEST_CASE("many values at once are the same as one after the other", "[scene_file][property]") {
    const std::vector<std::string> values{
        "camera.f_number=11.0",         "person.Bram.age_years=10", "row.0.back_m=0.25",
        "camera.focal_length_mm=105.0", "camera.f_number=5.6",      "title=\"The longer title\"",
        "setting.backdrop.0.back_m=7",  "focus.balanced=true",      "person.Yuki.back_m=0.1"};
    for (std::size_t first = 0; first < values.size(); ++first)
        for (std::size_t count = 2; first + count <= values.size(); ++count) {
            std::vector<std::string> some(values.begin() + static_cast<std::ptrdiff_t>(first),
                                          values.begin() +
                                              static_cast<std::ptrdiff_t>(first + count));
            std::string one_by_one = choir;
            for (const std::string& value : some)
                one_by_one = after({value}, one_by_one);
            CHECK(after(some) == one_by_one);
        }
    CHECK(after({"camera.f_number=4.0", "row.0.back_m=0.5"}) ==
          choir_with("f_number        = 4.0", "f_number        = 2.0")
              .replace(choir.find("back_m = 0.0"), 12, "back_m = 0.5"));
}

TEST_CASE("a whole row led aside gets its tables and keys as one after the other",
          "[scene_file][property]") {
    const std::vector<std::string> values{
        "person.Yuki.back_m=0.1",   "person.Odile.across_m=-0.25", "person.Bram.across_m=0.25",
        "person.Yuki.across_m=0.3", "person.Odile.back_m=0.1",     "person.Bram.back_m=0.1",
        "camera.height_m=1.7",      "camera.across_m=0.1"};
    for (const std::string& text : {choir,
                                    choir_with("", "\n[[setting.backdrop]]\nkind = \"hedge\"\n"
                                                   "back_m = 9\n"),
                                    choir_with("name = \"Bram\"", "name      = \"Bram\"")}) {
        std::string one_by_one = text;
        for (const std::string& value : values)
            one_by_one = after({value}, one_by_one);
        CHECK(with_values_at_once(text, "choir.toml", values) == one_by_one);
        CHECK(after(values, text) == one_by_one);
    }
}

TEST_CASE("somebody of a row whose name is a number gets a table, not another's",
          "[scene_file][property]") {
    const std::string text = "[[row]]\npeople = [\"0\", \"Bram\"]\n[[person]]\nname = \"Bram\"\n";
    CHECK(after({"person.0.back_m=0.1"}, text) ==
          text + "\n[[person]]\nname = \"0\"\nback_m = 0.1\n");
}

TEST_CASE("a new key follows the last of its table and lines up with it",
          "[scene_file][property]") {
    CHECK(after({"camera.iso=200"}) ==
          choir_with("f_number        = 2.0\niso             = 200\n", "f_number        = 2.0\n"));
    CHECK(after({"person.Bram.lean_m=-0.1"}) ==
          choir_with("age_years = 9\nlean_m    = -0.1\n", "age_years = 9\n"));
    CHECK(after({"row.0.spacing_m=0.6"}) ==
          choir_with("\"Bram\"]  # small in front\nspacing_m = 0.6\n",
                     "\"Bram\"]  # small in front\n"));
}

TEST_CASE("what says the same in another way gives up its line", "[scene_file][property]") {
    CHECK(after({"focus.balanced=true"}) ==
          choir_with("balanced = true  # the", "on = \"Odile\"  # the"));
    const std::string printed =
        "[viewing]\nprint_long_side_cm = 60\nviewing_distance_cm = 80 # the hall\n";
    CHECK(after({"viewing.use=wall"}, printed) == "[viewing]\nuse                = \"wall\"\n");
    CHECK(after({"focus.on=Ana"}, "focus = { distance_m = 3 }\n[[row]]\npeople = ['Ana']\n") ==
          "focus = { on = \"Ana\" }\n[[row]]\npeople = ['Ana']\n");
    CHECK(after({"viewing.use=wall"},
                "viewing = { print_long_side_cm = 60, viewing_distance_cm = 80 }\n") ==
          "viewing = { use = \"wall\" }\n");
}

TEST_CASE("tables that are missing come at the end", "[scene_file][property]") {
    CHECK(after({"odds.sway_mm=9"}) == choir + "\n[odds]\nsway_mm = 9\n");
    CHECK(after({"person.Yuki.back_m=0.1"}) ==
          choir + "\n[[person]]\nname = \"Yuki\"\nback_m = 0.1\n");
    CHECK(after({"setting.ground=sand"}) == choir + "\n[setting]\nground = \"sand\"\n");
}

TEST_CASE("files from other editors are kept as they are", "[scene_file][property]") {
    CHECK(after({"camera.f_number=4"},
                "\xEF\xBB\xBFtitle = \"Fête\"\r\n[camera]\r\nf_number = 2\r\n") ==
          "\xEF\xBB\xBFtitle = \"Fête\"\r\n[camera]\r\nf_number = 4\r\n");
    CHECK(after({"camera.iso=400"}, "camera = { f_number = 2, iso = 100 } # \"é\"\n") ==
          "camera = { f_number = 2, iso = 400 } # \"é\"\n");
    CHECK(after({"camera.f_number=4"}, "camera.f_number = 2") == "camera.f_number = 4");
    CHECK(after({"camera.iso=400"}, "[camera]") == "[camera]\niso = 400\n");
    CHECK(after({"title=Ä = # ]"}, "title = '''a\n# ]'''  # kept") ==
          "title = \"Ä = # ]\"  # kept");
}

TEST_CASE("what cannot be written is refused, and so is what is no override",
          "[scene_file][property]") {
    CHECK_FALSE(with_values(choir, "choir.toml", {"person.Nobody.back_m=1"}));
    CHECK_FALSE(with_values(choir, "choir.toml", {"camera"}));
    CHECK_FALSE(with_values("[camera", "choir.toml", {"camera.iso=1"}));
    CHECK_FALSE(with_values(choir, "choir.toml", {"row.7.back_m=1"}));
}
