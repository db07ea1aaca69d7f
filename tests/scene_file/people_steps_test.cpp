#include "scene_file/editing/people_steps.h"

#include "scene_folder.h"

#include "scene/set_people.h"
#include "scene/set_words.h"
#include "scene_file/editing/edit_scene_text.h"

#include "base/splitmix64.h"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <array>
#include <cstdint>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::scene_file;

namespace {

using Messages = std::vector<std::string>;

const std::string choir = R"(# Our choir, with Bram.
title = "Choir"

[camera]
aim = "Bram"  # his tie

[focus]
on = "Bram"   # the soloist

[[row]]  # sopranos
back_m = 0.0
people = ["Yuki", "Odile",
          "Bram"]  # small in front

[[row]]
people = [
    "Sefu",   # the tallest
    "Ines",   # left-handed
    "J. R.",
]
back_m = 0.6

# Leans out.
[[person]]
name      = "Bram"
gaze      = "Odile"
age_years = 9  # and a half

[[person]]
name = "Odile"
gaze = "Bram" # her brother

[[person]]
name       = "Mia"
carried_by = "Odile"
age_years  = 3
)";

std::string after(const std::vector<std::string>& values, const std::string& text = choir) {
    const auto changed = with_values(text, "choir.toml", values);
    if (!changed)
        FAIL(to_line(changed.error().front()));
    return *changed;
}

/// The choir with one passage in place of another.
std::string with(std::string text, const std::string& now, const std::string& before) {
    const auto at = text.find(before);
    REQUIRE(at != text.npos);
    return text.replace(at, before.size(), now);
}

Messages wrong(const std::vector<std::string>& values) {
    return SceneFolder{}.messages(choir, values);
}

}  // namespace

TEST_CASE("somebody is renamed wherever the scene names them", "[scene_file][property]") {
    std::string renamed = choir;
    for (std::size_t at = renamed.find("\"Bram\""); at != renamed.npos;
         at = renamed.find("\"Bram\""))
        renamed.replace(at, 6, "\"Ann \\\"A\\\"\"");
    CHECK(after({"person.Bram.name=\"Ann \\\"A\\\"\""}) == renamed);
    CHECK(after({"person.\"Ann \\\"A\\\"\".name=Bram"}, renamed) == choir);
    CHECK(after({"person.\"J. R.\".name=Jo"}) == with(choir, "\"Jo\"", "\"J. R.\""));
    CHECK(after({"person.1.name=Ute"}) == after({"person.Odile.name=Ute"}));
    CHECK(after({"person.Bram.name=Bram"}) == choir);
}

TEST_CASE("somebody who leaves is taken out wherever the scene names them",
          "[scene_file][property]") {
    std::string left = with(choir, "aim = \"group\"", "aim = \"Bram\"");
    left = with(left, "balanced = true   # the", "on = \"Bram\"   # the");
    left = with(left, "\"Odile\"]  # small", "\"Odile\",\n          \"Bram\"]  # small");
    left = with(left, "\n# Leans out.\n\n[[person]]\nname = \"Odile\"",
                "\n# Leans out.\n[[person]]\nname      = \"Bram\"\ngaze      = \"Odile\"\n"
                "age_years = 9  # and a half\n\n[[person]]\nname = \"Odile\"");
    left = with(left, "gaze = \"camera\" # her", "gaze = \"Bram\" # her");
    CHECK(after({"person.Bram.name=\"\""}) == left);
    CHECK(after({"person.Ines.name=\"\""}) == with(choir, "", "    \"Ines\",   # left-handed\n"));
    CHECK(after({"person.\"J. R.\".name=\"\""}) == with(choir, "", "    \"J. R.\",\n"));
    CHECK(after({"person.Yuki.name=\"\""}) == with(choir, "", "\"Yuki\", "));
}

TEST_CASE("a child whose carrier leaves takes the place in the row", "[scene_file][property]") {
    const std::string left = after({"person.Odile.name=\"\""});
    CHECK(left.find("[\"Yuki\", \"Mia\",\n") != left.npos);
    CHECK(left.find("carried_by") == left.npos);
    CHECK(left.find("age_years  = 3\n") != left.npos);
    CHECK(SceneFolder{}.read(left));
}

TEST_CASE("a newcomer is written into the row and nothing else changes", "[scene_file][property]") {
    CHECK(after({"row.0.people=[\"Ana\",\"Yuki\",\"Odile\",\"Bram\"]"}) ==
          with(choir, "[\"Ana\", \"Yuki\"", "[\"Yuki\""));
    CHECK(after({"row.0.people=[\"Yuki\",\"Odile\",\"Ana\",\"Bram\"]"}) ==
          with(choir, "\"Odile\",\n          \"Ana\",\n          \"Bram\"",
               "\"Odile\",\n          \"Bram\""));
    CHECK(after({"row.0.people=[\"Yuki\",\"Odile\",\"Bram\",\"Ana\"]"}) ==
          with(choir, "\"Bram\", \"Ana\"]", "\"Bram\"]"));
    CHECK(after({"row.1.people=[\"Sefu\",\"Ana\",\"Ines\",\"J. R.\"]"}) ==
          with(choir, "# the tallest\n    \"Ana\",\n", "# the tallest\n"));
    CHECK(after({"row.1.people=[\"Sefu\",\"Ines\",\"J. R.\",\"Ana\"]"}) ==
          with(choir, "\"J. R.\",\n    \"Ana\",\n", "\"J. R.\",\n"));
    CHECK(after({"person.Ana.name=Ana", "person.Ana.back_m=2"}) ==
          choir + "\n[[person]]\nname = \"Ana\"\nback_m = 2\n");
}

TEST_CASE("whoever comes and leaves again leaves no trace", "[scene_file][property]") {
    for (const char* people : {"row.0.people=[\"Ana\",\"Yuki\",\"Odile\",\"Bram\"]",
                               "row.0.people=[\"Yuki\",\"Odile\",\"Ana\",\"Bram\"]",
                               "row.0.people=[\"Yuki\",\"Odile\",\"Bram\",\"Ana\"]",
                               "row.1.people=[\"Sefu\",\"Ana\",\"Ines\",\"J. R.\"]",
                               "row.1.people=[\"Sefu\",\"Ines\",\"J. R.\",\"Ana\"]",
                               "row.2.people=[\"Ana\"]", "person.Ana.name=Ana"}) {
        CAPTURE(people);
        CHECK(after({people, "person.Ana.name=\"\""}) == choir);
        CHECK(after({people, "person.Ana.age_years=7", "person.Odile.gaze=Ana",
                     "person.Ana.name=\"\"", "person.Odile.gaze=Bram"}) == choir);
    }
}

TEST_CASE("a row that is not there yet is made, and one that nobody is left in goes",
          "[scene_file][property]") {
    const std::string third =
        with(choir, "back_m = 0.6\n\n[[row]]\npeople = [\"Ana\"]\nup_m   = 1\n", "back_m = 0.6\n");
    CHECK(after({"row.2.people=[\"Ana\"]", "row.2.up_m=1"}) == third);
    CHECK(after({"row.2.people=[]"}, third) == choir);
    // Rows keep their numbers until all is done.
    const std::string joined =
        after({"row.0.people=[]", "row.1.people=[\"Odile\",\"Bram\",\"Yuki\",\"Ines\"]"});
    CHECK(joined.find("# sopranos") == joined.npos);
    CHECK(joined.find("back_m = 0.6") != joined.npos);
    const auto scene = SceneFolder{}.read(joined);
    REQUIRE(scene);
    CHECK(scene->people.front().name == "Odile");
    CHECK(scene->people.front().row == 0);
    // The same for one run.
    const auto run = SceneFolder{}.read(
        choir, {"row.0.people=[]", "row.1.people=[\"Odile\",\"Bram\",\"Yuki\",\"Ines\"]"});
    REQUIRE(run);
    CHECK(run->people.front().place.back_m == 0.6);
}

TEST_CASE("whoever is put into a row is put down", "[scene_file][property]") {
    CHECK(after({"row.1.people=[\"Sefu\",\"Ines\",\"J. R.\",\"Mia\"]"}) ==
          with(with(choir, "\"J. R.\",\n    \"Mia\",\n", "\"J. R.\",\n"), "",
               "carried_by = \"Odile\"\n"));
}

TEST_CASE("files written in one line are changed in that line", "[scene_file][property]") {
    const std::string inline_text = "row = [{people = ['A', 'B']}, {people = ['C']}] # two\n"
                                    "person = [{name = 'A', carried_by = 'C', carried = 'hip'}, "
                                    "{name = 'D', gaze = 'B'}]\n";
    CHECK(after({"person.B.name=\"\""}, inline_text) ==
          with(with(inline_text, "['A']", "['A', 'B']"), "\"camera\"", "'B'"));
    CHECK(after({"person.C.name=\"\""}, "row = [{people = ['A', 'B']}, {people = ['C']}]\n") ==
          "row = [{people = ['A', 'B']}]\n");
    CHECK(after({"person.C.name=\"\""},
                "row = [{people = ['B']}, {people = ['C', 'E']}] # two\n"
                "person = [{name = 'A', carried_by = 'C', carried = 'hip'}]\n") ==
          "row = [{people = ['B']}, {people = [\"A\", 'E']}] # two\nperson = [{name = 'A'}]\n");
    CHECK(after({"row.2.people=['E']"}, inline_text) ==
          with(inline_text, "['C']}, { people = ['E'] }]", "['C']}]"));
}

TEST_CASE("a name that cannot be is told so, in one line", "[scene_file][property]") {
    CHECK(
        wrong({"person.Bram.name=Odile"}) ==
        Messages{"--set person.Bram.name=Odile: `Odile` is in the picture already; give namesakes "
                 "different names"});
    CHECK(wrong({"person.Bram.name=\"  \""}) ==
          Messages{"--set person.Bram.name=\"  \": a name is empty; write who stands here"});
    CHECK(wrong({"person.Bram.name=7"}) ==
          Messages{"--set person.Bram.name=7: a name is text, not a number; write it in quotation "
                   "marks"});
    CHECK(wrong({"person.Brma.name=Ana"}) ==
          Messages{"--set person.Brma.name=Ana: nobody in the picture is called `Brma`; did you "
                   "mean `Bram`?"});
    CHECK(
        wrong({"person.Bram.name=group"}) ==
        Messages{"--set person.Bram.name=group: as `aim` of something, `group` is no name; choose "
                 "another name"});
    CHECK(wrong({"row.3.people=[\"Ana\"]"}) ==
          Messages{"--set row.3.people=[\"Ana\"]: there is no `row` number 3; this scene has 2, "
                   "counted from 0; the next one is made with row.2.people=[\"…\"]"});
    CHECK(wrong({"person.Ana.name=Ana", "row.0.people=[\"Ana\", \"Ana\"]"}).size() >= 1);
}

namespace {

/// Draws what hands might ask for: people come, go, are renamed, carried and moved.
class Lot {
public:
    explicit Lot(std::uint64_t seed) : at_{seed} {}

    std::size_t below(std::size_t count) { return splitmix64(at_ += counter_step) % count; }

    std::vector<std::string> values(const scene::Scene& scene) {
        const std::size_t who = below(scene.people.size());
        const std::string& name = scene.people[who].name;
        const int row = static_cast<int>(below(static_cast<std::size_t>(row_count(scene)) + 1));
        switch (below(9)) {
        case 0:
            return set_coming(scene, newcomer(), row, below(5));
        case 1:
            return scene::set_coming_alone(newcomer(), 0.1 * static_cast<double>(below(20)), 0.5);
        case 2:
            return {scene::set_leaving(name)};
        case 3:
            return {scene::set_renamed(name, newcomer())};
        case 4:
            return set_moved(scene, who, row, below(5));
        case 5:
            return set_moved_out(scene, who, 0.1 * static_cast<double>(below(20)), 0.2);
        case 6:
            return {scene::set_words(scene::person_key(name, "gaze"), somebody(scene))};
        case 7:
            return {scene::set_words("focus.on", name), scene::set_words("camera.aim", name)};
        default:
            return {scene::set_words(scene::person_key(name, "carried_by"), somebody(scene)),
                    scene::set_person_number(name, "stature_m", 0.9)};
        }
    }

private:
    std::string newcomer() {
        constexpr std::array<const char*, 6> names{"Ana",      "J. R.", "a=b",
                                                   "\"Q\" \\", "0",     "Åse #1"};
        return fmt::format("{} {}", names[below(names.size())], below(40));
    }
    std::string somebody(const scene::Scene& scene) {
        return scene.people[below(scene.people.size())].name;
    }

    std::uint64_t at_;
};

}  // namespace

TEST_CASE("a file stays readable whoever comes, goes and moves, drawn by lot",
          "[scene_file][property]") {
    const std::vector<std::string> beginnings{
        choir,
        "row = [{people = ['A', 'B']}, {people = ['C']}]\nperson = [{name = 'D', gaze = 'B'}]\n",
        "\xEF\xBB\xBF[[person]]\r\nname = 'A'\r\n\r\n# Who?\r\n[[row]]\r\npeople = [ # all\r\n  "
        "'B', # first\r\n  'C' # last\r\n]\r\n",
        "row = [\n  {people = ['A',\n 'B' , 'C',]},\n]"};
    Lot lot{20260};
    int done = 0;
    int refused = 0;
    for (int round = 0; round < 40; ++round) {
        std::string text = beginnings[static_cast<std::size_t>(round) % beginnings.size()];
        for (int step = 0; step < 100; ++step) {
            const auto scene = read_scene_text(text, "lot.toml");
            REQUIRE(scene);
            const std::vector<std::string> values = lot.values(*scene);
            CAPTURE(text, values);
            const auto asked = read_scene_text(text, "lot.toml", values);
            const auto changed = with_values(text, "lot.toml", values);
            if (!asked) {  // A child that carries, the last one gone.
                ++refused;
                continue;
            }
            REQUIRE(changed);
            const auto now = read_scene_text(*changed, "lot.toml");
            REQUIRE(now);
            REQUIRE(now->people == asked->people);
            text = *changed;
            ++done;
        }
    }
    CHECK(done > 2000);
    CHECK(refused > 100);
}
