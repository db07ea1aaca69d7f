#include "rehearsal/sitting/sitting.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

const std::string trio = R"(# Three in a line, one of them far back.
[camera]
f_number   = 2.0
distance_m = 4.0
[focus]
on = "Ana"
[[row]]
people = ["Ana", "Ben", "Priya"]
[[person]]
name   = "Priya"
back_m = 0.9  # by the door
)";

struct Opened {
    scene_file::SceneFolder folder;
    Sitting sitting;

    Opened() : sitting{*Sitting::open(folder.write("trio.toml", trio))} {}
};

}  // namespace

TEST_CASE("the least sharp comes first, and a change puts everything anew",
          "[rehearsal][property]") {
    Opened opened;
    Sitting& sitting = opened.sitting;
    const auto worst = [&] {
        return sitting.scene().people[sitting.facts().worst_first.front()].name;
    };
    CHECK(worst() == "Priya");
    CHECK_FALSE(sitting.chosen());
    const int edition = sitting.edition();
    const auto kept = sitting.shared_scene();

    sitting.make(focus_on(sitting.scene(), 2));
    CHECK(worst() == "Ana");
    CHECK(sitting.edition() > edition);
    CHECK(sitting.edited().has_unsaved_changes());
    // Whoever works on the scene of before still has it.
    CHECK(std::get<scene::FocusOnPerson>(kept->focus).name == "Ana");

    sitting.undo();
    CHECK(worst() == "Priya");
    CHECK_FALSE(sitting.edited().has_unsaved_changes());
    sitting.redo();
    CHECK(worst() == "Ana");
}

TEST_CASE("whoever is chosen stays chosen while the order changes", "[rehearsal][property]") {
    Opened opened;
    Sitting& sitting = opened.sitting;
    sitting.choose_next(1);
    CHECK(sitting.chosen() == std::size_t{2});
    sitting.make(focus_on(sitting.scene(), 2));
    CHECK(sitting.chosen() == std::size_t{2});
    sitting.choose_next(1);  // after the last, the first
    CHECK(sitting.chosen() == sitting.facts().worst_first.front());
    sitting.choose_next(-1);
    CHECK(sitting.chosen() == std::size_t{2});
    // Somebody who is not there any more is not chosen.
    sitting.take_text("Two only", "[[row]]\npeople = [\"Ana\", \"Ben\"]\n");
    CHECK(sitting.complaint().empty());
    CHECK_FALSE(sitting.chosen());
}

TEST_CASE("what cannot be is told, changes nothing, and is forgotten with the next deed",
          "[rehearsal][property]") {
    Opened opened;
    Sitting& sitting = opened.sitting;
    const int edition = sitting.edition();
    sitting.make({"Behind the camera", {"person.Priya.back_m=-30.0"}});
    CHECK_FALSE(sitting.complaint().empty());
    CHECK(sitting.edition() == edition);
    CHECK_FALSE(sitting.edited().can_undo());
    sitting.make({"Nothing", {}});
    CHECK(sitting.complaint().empty());
    CHECK(sitting.edition() == edition);
    sitting.make({"As it is", {"camera.f_number=2.0"}});
    CHECK(sitting.edition() == edition);
}
