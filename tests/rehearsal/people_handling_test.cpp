#include "rehearsal/hands/people_handling.h"

#include "rehearsal/hands/looks.h"
#include "rehearsal/sitting/edited_scene.h"

#include "scene/set_people.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

const std::string family = R"([camera]
distance_m = 5.0
[focus]
on = "Ben"
[[row]]
people = ["Ana", "Ben", "Cleo"]
[[person]]
name = "Mia"
age_years = 3
carried_by = "Ana"
[[person]]
name = "Cleo"  # the tall one
stature_m = 1.86
[[person]]
name = "Dan"
across_m = 1.4
)";

struct Opened {
    scene_file::SceneFolder folder;
    EditedScene edited = *EditedScene::open(folder.write("family.toml", family));

    [[nodiscard]] const scene::Scene& scene() const { return edited.scene(); }
    [[nodiscard]] std::size_t index(const std::string& name) const {
        const auto found = std::ranges::find(scene().people, name, &scene::Person::name);
        REQUIRE(found != scene().people.end());
        return static_cast<std::size_t>(found - scene().people.begin());
    }
    [[nodiscard]] const scene::Person& person(const std::string& name) const {
        return scene().people[index(name)];
    }
    void make(const Change& change) {
        const auto made = edited.change(change.what, change.values);
        INFO(change.what << ": " << (made ? "" : to_line(made.error().front())));
        REQUIRE(made);
    }
};

}  // namespace

TEST_CASE("somebody new stands beside whoever was chosen, under a name that nobody has",
          "[rehearsal][property]") {
    Opened opened;
    const Newcomer one = add_person(opened.scene(), opened.index("Ana"));
    opened.make(one.change);
    CHECK(opened.scene().people[1].name == one.name);
    CHECK(opened.scene().people.size() == 6);
    const Newcomer alone = add_person(opened.scene(), opened.index("Dan"));
    CHECK(alone.name != one.name);
    opened.make(alone.change);
    CHECK(opened.person(alone.name).place.across_m == Approx(1.9));
    opened.make(add_person(opened.scene(), {}).change);
    opened.edited.undo();
    opened.edited.undo();
    opened.edited.undo();
    CHECK(opened.edited.text() == family);
}

TEST_CASE("another like somebody is as tall, as old and dressed alike", "[rehearsal][property]") {
    Opened opened;
    const auto at = std::array{opened.index("Cleo")};
    for (const Look& look : looks())
        if (!look.is_bearing)
            opened.make(choose_look(opened.scene(), at, look, look.words.back()));
    const Newcomer twin = add_another_like(opened.scene(), opened.index("Cleo"));
    opened.make(twin.change);
    scene::Person other = opened.person(twin.name);
    const scene::Person& cleo = opened.person("Cleo");
    CHECK(other.measures == cleo.measures);
    CHECK(other.styling == cleo.styling);
}

TEST_CASE("whoever is taken out leaves the children that they carried", "[rehearsal][property]") {
    Opened opened;
    const std::array out{opened.index("Ana"), opened.index("Ben")};
    opened.make(remove_people(opened.scene(), out));
    CHECK(opened.scene().people.size() == 3);
    CHECK(opened.person("Mia").carrier == -1);
    CHECK(opened.person("Mia").row == 0);
    const std::array all{std::size_t{0}, std::size_t{1}, std::size_t{2}};
    CHECK(remove_people(opened.scene(), all).values.empty());
}

TEST_CASE("a new name holds wherever somebody is named", "[rehearsal][property]") {
    Opened opened;
    opened.make(rename(opened.scene(), opened.index("Ben"), "Beno \"B\""));
    CHECK(opened.scene().people[1].name == "Beno \"B\"");
    CHECK(std::get<scene::FocusOnPerson>(opened.scene().focus).name == "Beno \"B\"");
    CHECK(rename(opened.scene(), 1, "").values.empty());
    const Change taken = rename(opened.scene(), 1, "Ana");
    CHECK_FALSE(opened.edited.change(taken.what, taken.values));
}

TEST_CASE("a child is put down beside whoever carried it, and taken up again",
          "[rehearsal][property]") {
    Opened opened;
    opened.make(carry(opened.scene(), opened.index("Mia"), {}));
    CHECK(opened.person("Mia").carrier == -1);
    CHECK(opened.scene().people[1].name == "Mia");
    opened.make(carry(opened.scene(), opened.index("Mia"), opened.index("Cleo")));
    CHECK(opened.scene().people[static_cast<std::size_t>(opened.person("Mia").carrier)].name ==
          "Cleo");
}

// By every word of every look; whoever is carried has no posture, nor arms, nor a skirt.
TEST_CASE("whatever can be chosen of somebody's looks is taken, and read back as chosen",
          "[rehearsal][property]") {
    for (const Look& look : looks())
        for (const std::string_view word : look.words) {
            Opened opened;
            const std::array all{std::size_t{0}, std::size_t{1}, std::size_t{2}, std::size_t{3},
                                 std::size_t{4}};
            INFO(look.key << " = " << word);
            opened.make(choose_look(opened.scene(), all, look, word));
            for (const scene::Person& person : opened.scene().people)
                if (person.name != "Mia" && !(person.name == "Ana" && look.name == looks()[0].name))
                    CHECK(look.now(person) == word);
            CHECK(choose_look(opened.scene(), all, look, word).values.empty());
        }
}

TEST_CASE("a look that was chosen is taken back, and the file is as it was",
          "[rehearsal][property]") {
    for (const Look& look : looks()) {
        if (!look.words.front().empty())
            continue;
        INFO(look.key);
        Opened opened;
        // Whose [[person]] stays, for it had one before.
        const std::array cleo{opened.index("Cleo")};
        opened.make(choose_look(opened.scene(), cleo, look, look.words.back()));
        const std::string said = opened.edited.text();
        CHECK(said != family);
        opened.make(choose_look(opened.scene(), cleo, look, ""));
        CHECK(look.now(opened.person("Cleo")).empty());
        CHECK(opened.edited.text().find(look.key) == family.find(look.key));
    }
    Opened opened;
    opened.make({.what = "Her own", .values = {"person.Cleo.top_colour=\"#123456\""}});
    const Look& colour = *std::ranges::find(looks(), std::string_view{"top_colour"}, &Look::key);
    CHECK(colour.now(opened.person("Cleo")).empty());
    const std::array cleo{opened.index("Cleo")};
    opened.make(choose_look(opened.scene(), cleo, colour, ""));
    CHECK_FALSE(opened.person("Cleo").styling.top_colour);
}

TEST_CASE("who stays beside whom, and who stays, is said for arranging again",
          "[rehearsal][property]") {
    Opened opened;
    opened.make(stay_beside(opened.scene(), opened.index("Ana"), "Cleo"));
    CHECK(opened.person("Ana").company.with == std::vector<std::string>{"Cleo"});
    opened.make(stay_beside(opened.scene(), opened.index("Ana"), ""));
    CHECK(opened.person("Ana").company.with.empty());
    opened.make(stay_beside(opened.scene(), opened.index("Ana"), "Cleo"));
    opened.make(arrange_again(arranging::rearrange(opened.scene(), {})));
    const auto row = names_in_row(opened.scene(), 0);
    const auto ana = std::ranges::find(row, "Ana") - row.begin();
    const auto cleo = std::ranges::find(row, "Cleo") - row.begin();
    CHECK(std::abs(ana - cleo) == 1);
    const std::array two{opened.index("Ana"), opened.index("Ben")};
    opened.make(say_of(opened.scene(), two, "pinned", "true"));
    CHECK(opened.person("Ben").company.pinned);
}

TEST_CASE("who looks where is chosen for several at once", "[rehearsal][property]") {
    Opened opened;
    const std::array two{opened.index("Ana"), opened.index("Cleo")};
    opened.make(look_at(opened.scene(), two, "Ben"));
    CHECK(std::get<scene::GazeAtPerson>(opened.person("Cleo").gaze).name == "Ben");
    opened.make(look_at(opened.scene(), two, "camera"));
    CHECK(std::holds_alternative<scene::GazeAtCamera>(opened.person("Ana").gaze));
}
