#include "arranging/rearrange.h"

#include "../scene_file/scene_folder.h"

#include "arranging/wish_lists.h"
#include "scene/set_people.h"
#include "scene_file/editing/edit_scene_text.h"
#include "scene_file/editing/write_scene.h"

#include "base/splitmix64.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace backrow::arranging {

using namespace scene;
namespace {

using Names = std::vector<std::string>;

const std::string party = R"(# The seventieth birthday.
[[row]]  # on chairs
back_m = 0.0
spacing_m = 0.7
people = ["Tall", "Gran", "Lee"]
[[row]]
back_m = 0.6
people = ["Kim", "Mid", "Small", "Max"]
[[person]]
name = "Tall"
stature_m = 1.95
posture = "seated"
across_m = 0.1   # aside
[[person]]
name = "Gran"
age_years = 70
posture = "seated"
celebrated = true
[[person]]
name = "Lee"
stature_m = 1.60
posture = "seated"
top_colour = "red"
[[person]]
name = "Small"
stature_m = 1.52
with = "Lee"
[[person]]
name = "Kim"
age_years = 5
[[person]]
name = "Mid"
stature_m = 1.75
[[person]]
name = "Max"
stature_m = 1.80
pinned = true
back_m = 0.1
[[person]]
name = "Alone"
across_m = 2
)";

Scene read(const std::string& text, const std::vector<std::string>& values = {}) {
    const scene_file::SceneFolder folder;
    auto scene = folder.read(text, values);
    INFO((scene ? std::string{} : folder.lines(scene.error()).front()));
    REQUIRE(scene);
    return std::move(*scene);
}

std::string after(const std::string& text, const Rearrangement& again) {
    auto changed = scene_file::with_values(text, "x.toml", again.values);
    if (!changed)
        FAIL(to_line(changed.error().front()));
    return std::move(*changed);
}

const Person& named(const Scene& scene, const std::string& name) {
    const auto found = std::ranges::find(scene.people, name, &Person::name);
    REQUIRE(found != scene.people.end());
    return *found;
}

}  // namespace

// Common practice, no source.
TEST_CASE("arranged again, the small come to the front and belong together",
          "[arranging][practice]") {
    const Scene before = read(party);
    const Scene now = read(after(party, rearrange(before)));
    CHECK(names_in_row(now, 0)[1] == "Gran");
    CHECK(named(now, "Lee").row == named(now, "Small").row);
    CHECK(std::abs(named(now, "Lee").place.across_m - named(now, "Small").place.across_m) < 0.71);
    CHECK(named(now, "Tall").row == 1);
    CHECK(named(now, "Tall").pose.posture == figures::Posture::standing);
    CHECK(named(now, "Tall").own == FromMark{});
}

TEST_CASE("whoever is pinned or stands alone keeps place, steps and posture; all keep their looks",
          "[arranging][property]") {
    const Scene before = read(party);
    const Scene now = read(after(party, rearrange(before)));
    CHECK(named(now, "Max").place == named(before, "Max").place);
    CHECK(named(now, "Max").own == named(before, "Max").own);
    CHECK(named(now, "Alone").place == named(before, "Alone").place);
    REQUIRE(now.people.size() == before.people.size());
    for (const Person& person : before.people) {
        CHECK(named(now, person.name).styling == person.styling);
        CHECK(named(now, person.name).company == person.company);
        CHECK(named(now, person.name).measures == person.measures);
    }
    CHECK(
        after(party, rearrange(before)).starts_with("# The seventieth birthday.\n[[row]]  # on "));
}

TEST_CASE("of one row alone only the order changes", "[arranging][property]") {
    const Scene before = read(party);
    for (int row = 0; row < 2; ++row) {
        const Scene now = read(after(party, rearrange(before, row)));
        for (const Person& person : before.people)
            CHECK(named(now, person.name).row == person.row);
        CHECK(names_in_row(now, 1 - row) == names_in_row(before, 1 - row));
    }
    CHECK(names_in_row(read(after(party, rearrange(before, 0))), 0)[1] == "Gran");
}

TEST_CASE("what is arranged well already is left as it is", "[arranging][property]") {
    for (const char* couples : {"", "A+B,C+D"})
        for (const int people : {5, 9, 14, 23, 40}) {
            const auto known = known_from(
                {.families = "A,B,E,F;C,D,G", .couples = couples, .ages = "A=70,B=72,E=6,G=4"});
            REQUIRE(known);
            const auto made = arrange({.people = std::max(people, 7), .known = *known});
            REQUIRE(made);
            std::string text = scene_file::scene_toml(*made);
            text = after(text, rearrange(read(text)));
            const Rearrangement again = rearrange(read(text));
            CAPTURE(people, couples);
            CHECK(again.values.empty());
            CHECK(again.moved.empty());
        }
}

TEST_CASE("any group can be arranged again, drawn by lot", "[arranging][property]") {
    std::uint64_t at = 7;
    const auto below = [&](std::uint64_t count) { return splitmix64(at += counter_step) % count; };
    const std::vector<std::string> postures{"standing", "seated", "kneeling", "on_ground",
                                            "crouching"};
    int arranged_again = 0;
    for (int round = 0; round < 300; ++round) {
        std::string text;
        std::string details;
        std::uint64_t person = 0;
        const auto say = [&](std::uint64_t one_in, const std::string& line) {
            if (below(one_in) == 0)
                details += line + '\n';
        };
        for (std::uint64_t row = 0, rows = 1 + below(3); row < rows; ++row) {
            text += fmt::format("[[row]]\nback_m = {}\npeople = [", row);
            for (std::uint64_t i = 0, count = 1 + below(5); i < count; ++i, ++person) {
                text += fmt::format("\"P{}\", ", person);
                details += fmt::format("[[person]]\nname = \"P{}\"\nage_years = {}\n", person,
                                       3 + below(80));
                say(3, fmt::format("family = \"F{}\"", below(3)));
                say(4, fmt::format("posture = \"{}\"", postures[below(postures.size())]));
                say(6, "arms = \"folded\"");
                say(6, "bottom = \"skirt\"");
                say(6, "pinned = true");
                say(8, "celebrated = true");
                if (person > 0)
                    say(4, fmt::format("with = \"P{}\"", below(person)));
            }
            text += "]\n";
        }
        text += details;
        const auto scene = scene_file::SceneFolder{}.read(text);
        if (!scene)
            continue;  // A skirt that kneels.
        ++arranged_again;
        CAPTURE(text);
        const Scene now = read(after(text, rearrange(*scene)));
        CHECK(now.people.size() == scene->people.size());
        for (const Person& before : scene->people)
            if (before.company.pinned)
                CHECK(named(now, before.name).place.back_m == before.place.back_m);
    }
    CHECK(arranged_again > 60);
}

}  // namespace backrow::arranging
