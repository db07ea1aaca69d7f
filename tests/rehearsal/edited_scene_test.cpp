#include "rehearsal/sitting/edited_scene.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <string>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

const std::string duo = R"(# Two on the pier; mind the edge.
[camera]
f_number   = 2.0  # as wide as it is sharp
distance_m = 4.0

[[row]]
people = ["Ana", "Ben"]
)";

struct Opened {
    scene_file::SceneFolder folder;
    EditedScene edited;

    Opened() : edited{*EditedScene::open(folder.write("duo.toml", duo))} {}

    [[nodiscard]] std::string on_disk() const {
        std::ifstream file{folder.path("duo.toml"), std::ios::binary};
        return {std::istreambuf_iterator<char>{file}, {}};
    }
};

}  // namespace

TEST_CASE("what is done can be undone and done again", "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    CHECK_FALSE(edited.can_undo());
    REQUIRE(edited.change("f/4", {"camera.f_number=4"}));
    REQUIRE(edited.change("Lead Ben", {"person.Ben.back_m=0.1"}));
    CHECK(edited.scene().camera.f_number == 4);
    CHECK(edited.scene().people[1].place.back_m == 0.1);
    CHECK(edited.undone_next(Units::metric) == "Ben 10 cm back");
    CHECK(edited.undone_next(Units::imperial) == "Ben 3.9 in back");
    edited.undo();
    CHECK(edited.scene().people[1].place.back_m == 0);
    CHECK(edited.redone_next(Units::metric) == "Ben 10 cm back");
    edited.undo();
    CHECK(edited.text() == duo);
    CHECK_FALSE(edited.can_undo());
    edited.redo();
    edited.redo();
    CHECK(edited.scene().people[1].place.back_m == 0.1);
    CHECK_FALSE(edited.can_redo());
    edited.undo();
    REQUIRE(edited.change("ISO 200", {"camera.iso=200"}));
    CHECK_FALSE(edited.can_redo());
}

TEST_CASE("one movement of the hand is undone in one", "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    for (const char* back : {"0.1", "0.2", "0.3"})
        REQUIRE(edited.change("Ben back", {std::string{"person.Ben.back_m="} + back}, 7));
    REQUIRE(edited.change("Ben back", {"person.Ben.back_m=0.4"}, 8));
    edited.undo();
    CHECK(edited.scene().people[1].place.back_m == 0.3);
    edited.undo();
    CHECK(edited.text() == duo);
}

TEST_CASE("what cannot be is told and changes nothing", "[rehearsal][property]") {
    Opened opened;
    const auto refused = opened.edited.change("", {"camera.f_number=-1"});
    REQUIRE_FALSE(refused);
    CHECK(refused.error().front().where.line == 3);
    CHECK(opened.edited.text() == duo);
    CHECK_FALSE(opened.edited.can_undo());
    REQUIRE(opened.edited.change("", {"camera.distance_m=4.0"}));
    CHECK_FALSE(opened.edited.can_undo());
}

TEST_CASE("saving keeps comments and order, and tells what is unsaved", "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    CHECK_FALSE(edited.has_unsaved_changes());
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    CHECK(edited.has_unsaved_changes());
    CHECK(opened.on_disk() == duo);
    REQUIRE(edited.save());
    CHECK_FALSE(edited.has_unsaved_changes());
    std::string expected = duo;
    expected.replace(expected.find("2.0"), 3, "4.0");
    CHECK(opened.on_disk() == expected);
    edited.undo();
    CHECK(edited.has_unsaved_changes());
}

TEST_CASE("a file that cannot be written stays, and so does the work", "[rehearsal][property]") {
    Opened opened;
    REQUIRE(opened.edited.change("f/4", {"camera.f_number=4.0"}));
    const auto saved = opened.edited.save_as(opened.folder.path("nowhere/duo.toml"));
    REQUIRE(saved);
    CHECK_FALSE(*saved);
    CHECK(opened.edited.path() == opened.folder.path("duo.toml"));
    CHECK(opened.edited.has_unsaved_changes());
    const auto elsewhere = opened.edited.save_as(opened.folder.path("trio.toml"));
    REQUIRE(elsewhere);
    CHECK(*elsewhere);
    CHECK(opened.edited.path() == opened.folder.path("trio.toml"));
    CHECK(opened.on_disk() == duo);
}

TEST_CASE("a scene is not saved over what it is made of", "[rehearsal][regression]") {
    const scene_file::SceneFolder folder;
    folder.write("box.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
    folder.write("duo.toml", duo + "[[model]]\nfile = \"box.obj\"\n");
    auto edited = EditedScene::open(folder.path("duo.toml"));
    REQUIRE(edited);
    const auto saved = edited->save_as(folder.path("box.obj"));
    REQUIRE(saved);
    CHECK_FALSE(*saved);
    CHECK(edited->path() == folder.path("duo.toml"));
    CHECK(edited->save_as(folder.path("duo.toml")).value());
}

// The photo is beside the file and not in the other folder; the shutter was set with it and before.
TEST_CASE("saved elsewhere, only what can be read from there is undone or done again",
          "[rehearsal][regression]") {
    const scene_file::SceneFolder folder;
    folder.write("duo.toml", duo);
    folder.write("place.png", "not opened");
    folder.write("aside/note.txt", "");
    auto edited = EditedScene::open(folder.path("duo.toml"));
    REQUIRE(edited);
    REQUIRE(edited->change("Hang a photo", {"setting.panorama=\"place.png\""}));
    REQUIRE(edited->change("Shutter", {"camera.shutter_s=0.01"}));
    REQUIRE_FALSE(edited->save_as(folder.path("aside/duo.toml")));
    SECTION("what was done on the way is forgotten as far as the photo") {
        REQUIRE(edited->change("No photo", {"setting.panorama=\"\""}));
        REQUIRE(edited->change("f/4", {"camera.f_number=4.0"}));
        REQUIRE(edited->save_as(folder.path("aside/duo.toml")).value());
        edited->undo();
        CHECK(edited->scene().camera.f_number == 2);
        CHECK_FALSE(edited->can_undo());
        edited->redo();
        CHECK(edited->scene().camera.f_number == 4);
        CHECK_FALSE(edited->has_unsaved_changes());
    }
    SECTION("what was undone is forgotten from the photo on") {
        edited->undo();
        edited->undo();
        REQUIRE(edited->save_as(folder.path("aside/duo.toml")).value());
        CHECK_FALSE(edited->can_redo());
        CHECK(edited->text() == duo);
    }
    SECTION("in the same folder all stays") {
        REQUIRE(edited->save_as(folder.path("other.toml")).value());
        edited->undo();
        edited->undo();
        CHECK(edited->text() == duo);
        CHECK(edited->can_redo());
    }
}

TEST_CASE("what the file has is taken in, taken back, and asked about the next time",
          "[rehearsal][regression]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    REQUIRE(edited.change("Lead Ben", {"person.Ben.back_m=0.3"}));
    opened.folder.write("duo.toml", "# a note\n" + duo);
    REQUIRE(edited.take_merged(*edited.merged_with_file(), {}));
    edited.undo();
    REQUIRE(edited.change("ISO", {"camera.iso=200"}));
    opened.folder.write("duo.toml", "# another note\n" + duo);
    const auto merged = edited.merged_with_file();
    REQUIRE(merged);
    CHECK(merged->is_either_or);
    CHECK(edited.scene().people[1].own.back_m == 0.3);
}

TEST_CASE("what was set here and set back again is what the file has, and nobody is asked",
          "[rehearsal][regression]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    REQUIRE(edited.change("f/2", {"camera.f_number=2.0"}));
    REQUIRE(edited.change("ISO", {"camera.iso=200"}));
    std::string theirs = duo;
    theirs.replace(theirs.find("2.0"), 3, "5.6");
    opened.folder.write("duo.toml", theirs);
    const auto merged = edited.merged_with_file();
    REQUIRE(merged);
    CHECK(merged->clashes.empty());
    REQUIRE(edited.take_merged(*merged, {}));
    CHECK(edited.scene().camera.f_number == 5.6);
    CHECK(edited.scene().camera.iso == 200);
}

// Ana's row goes when she leaves it; after that, row 0 is another.
TEST_CASE("one drag through rows that come and go is done to the file as it was done here",
          "[rehearsal][regression]") {
    const scene_file::SceneFolder folder;
    const std::string text = "[[row]]\npeople = [\"Ana\"]\n[[row]]\nback_m = 1.0\n"
                             "people = [\"Ben\", \"Cleo\"]\n";
    auto edited = EditedScene::open(folder.write("rows.toml", text));
    REQUIRE(edited);
    const auto drag = [&](const std::vector<std::string>& values) {
        REQUIRE(edited->change("Ana", values, 1));
    };
    drag({"row.1.people=[\"Ben\", \"Cleo\", \"Ana\"]", "row.0.people=[]"});
    drag({"row.1.people=[\"Ana\"]", "row.0.people=[\"Ben\", \"Cleo\"]"});
    const scene::Scene here = edited->scene();
    folder.write("rows.toml", "# a note\n" + text);
    const auto merged = edited->merged_with_file();
    REQUIRE(merged);
    CHECK_FALSE(merged->is_either_or);
    REQUIRE(edited->take_merged(*merged, {}));
    REQUIRE(edited->scene().people.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(edited->scene().people[i].name == here.people[i].name);
        CHECK(edited->scene().people[i].row == here.people[i].row);
        CHECK(edited->scene().people[i].place.back_m == here.people[i].place.back_m);
    }
}

TEST_CASE("a file that changes while one is asked about it is noticed", "[rehearsal][regression]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    opened.folder.write("duo.toml", "# a note\n" + duo);
    const auto merged = edited.merged_with_file();
    REQUIRE(merged);
    opened.folder.write("duo.toml", "# another note\n" + duo);
    REQUIRE(edited.take_merged(*merged, {}));
    CHECK(edited.was_changed_on_disk());
}

TEST_CASE("somebody with = in the name keeps all of a drag when the file is taken in",
          "[rehearsal][regression]") {
    const scene_file::SceneFolder folder;
    const std::string text = "[[row]]\npeople = [\"a=b\", \"Ana\"]\n";
    auto edited = EditedScene::open(folder.write("duo.toml", text));
    REQUIRE(edited);
    REQUIRE(edited->change("Lead", {"person.\"a=b\".across_m=0.2"}, 1));
    REQUIRE(edited->change("Lead", {"person.\"a=b\".back_m=0.3"}, 1));
    folder.write("duo.toml", "# a note\n" + text);
    REQUIRE(edited->take_merged(*edited->merged_with_file(), {}));
    CHECK(edited->scene().people[0].own.across_m == 0.2);
    CHECK(edited->scene().people[0].own.back_m == 0.3);
    CHECK(edited->text().starts_with("# a note\n"));
}

TEST_CASE("a file changed by another hand is noticed, taken and can be given back",
          "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    CHECK_FALSE(edited.was_changed_on_disk());
    opened.folder.write("duo.toml", duo + "# a note\n");
    CHECK(edited.was_changed_on_disk());
    REQUIRE(edited.take_merged(*edited.merged_with_file(), {}));
    CHECK_FALSE(edited.was_changed_on_disk());
    CHECK_FALSE(edited.has_unsaved_changes());
    CHECK(edited.text() == duo + "# a note\n");
    edited.undo();
    CHECK(edited.text() == duo);
    opened.folder.write("duo.toml", "[camera");
    CHECK_FALSE(edited.merged_with_file());
    CHECK(edited.text() == duo);
}

TEST_CASE("what was changed here and what somebody else changed in the file are both kept",
          "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    for (const char* back : {"0.1", "0.2", "0.3"})
        REQUIRE(edited.change("Ben back", {std::string{"person.Ben.back_m="} + back}, 7));
    opened.folder.write("duo.toml", "# by hand\n" + duo + "[light]\nscene_ev100 = 9.0\n");
    auto merged = edited.merged_with_file();
    REQUIRE(merged);
    CHECK(merged->clashes.empty());
    CHECK_FALSE(merged->is_either_or);
    REQUIRE(edited.take_merged(*merged, {}));
    CHECK(edited.text().starts_with("# by hand\n"));
    CHECK(edited.scene().light.scene_ev100 == 9);
    CHECK(edited.scene().camera.f_number == 4);
    CHECK(edited.scene().people[1].place.back_m == Approx(0.3));
    CHECK_FALSE(edited.was_changed_on_disk());

    // Again, before anything was saved.
    REQUIRE(edited.change("", {"person.Ben.turn_deg=20.0"}));
    opened.folder.write("duo.toml", "# twice\n" + duo + "[light]\nscene_ev100 = 8.0\n");
    merged = edited.merged_with_file();
    REQUIRE(merged);
    CHECK_FALSE(merged->is_either_or);
    REQUIRE(edited.take_merged(*merged, {}));
    CHECK(edited.text().starts_with("# twice\n"));
    CHECK(edited.scene().light.scene_ev100 == 8);
    CHECK(edited.scene().camera.f_number == 4);
    CHECK(edited.scene().people[1].pose.turn_deg == 20);
    REQUIRE(edited.save());
    CHECK(opened.on_disk() == edited.text());
}

TEST_CASE("where one value was changed here and there, both are told, and either can be taken",
          "[rehearsal][property]") {
    for (const bool from_file : {false, true}) {
        Opened opened;
        EditedScene& edited = opened.edited;
        REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
        std::string theirs = duo;
        theirs.replace(theirs.find("2.0  #"), 3, "5.6");
        opened.folder.write("duo.toml", theirs);
        const auto merged = edited.merged_with_file();
        REQUIRE(merged);
        REQUIRE(merged->clashes.size() == 1);
        CHECK(merged->clashes[0].key == "camera.f_number");
        CHECK(merged->clashes[0].here == "4.0");
        CHECK(merged->clashes[0].in_file == "5.6");
        REQUIRE(edited.take_merged(*merged, from_file ? std::vector<std::string>{"camera.f_number"}
                                                      : std::vector<std::string>{}));
        CHECK(edited.scene().camera.f_number == (from_file ? 5.6 : 4.0));
    }
}

// Undone to before it was saved, nothing tells any more what was done here.
TEST_CASE("what cannot be brought together is one or the other, and the other can be had back",
          "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    REQUIRE(edited.save());
    edited.undo();
    const std::string theirs = duo + "# theirs\n";
    opened.folder.write("duo.toml", theirs);
    const auto merged = edited.merged_with_file();
    REQUIRE(merged);
    CHECK(merged->is_either_or);
    REQUIRE(edited.take_merged(*merged, {}));
    CHECK(edited.text() == theirs);
    edited.undo();
    CHECK(edited.text() == duo);
    edited.overrule_file();
    CHECK_FALSE(edited.was_changed_on_disk());
    CHECK(edited.has_unsaved_changes());
}

TEST_CASE("a scene that no file has yet is unsaved from the first", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    auto begun = EditedScene::begin(duo, folder.path("new.toml"));
    REQUIRE(begun);
    CHECK(begun->is_new());
    CHECK(begun->has_unsaved_changes());
    CHECK_FALSE(begun->was_changed_on_disk());
    REQUIRE(begun->save());
    CHECK_FALSE(begun->is_new());
    CHECK_FALSE(begun->has_unsaved_changes());
}

TEST_CASE("a whole text is taken as one change, or refused", "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    REQUIRE(edited.take_text("Take back what was not saved", duo + "[focus]\non = \"Ben\"\n"));
    CHECK(edited.undone_next(Units::metric) == "Take back what was not saved");
    CHECK(std::get<scene::FocusOnPerson>(edited.scene().focus).name == "Ben");
    const auto refused = edited.take_text("", "[[row]]\npeople = []\n");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().front().where.line == 2);
    edited.undo();
    CHECK(edited.text() == duo);
    REQUIRE(edited.take_text("", duo));
    CHECK_FALSE(edited.can_undo());
}

TEST_CASE("a drag that ends where it began leaves nothing to undo", "[rehearsal][property]") {
    Opened opened;
    EditedScene& edited = opened.edited;
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    for (const char* back : {"0.1", "0.2", "0.1"})
        REQUIRE(edited.change("Ben back", {std::string{"person.Ben.back_m="} + back}, 7));
    CHECK(edited.undone_next(Units::metric) == "Ben 10 cm back");
    for (const char* f_number : {"5.6", "4.0"})
        REQUIRE(edited.change("f", {std::string{"camera.f_number="} + f_number}, 8));
    CHECK(edited.undone_next(Units::metric) == "Ben 10 cm back");
    edited.undo();
    CHECK(edited.undone_next(Units::metric) == "f/2 → f/4");
}

// 2,000 people leave room for 20 steps.
TEST_CASE("undoing is bounded by what the steps would keep", "[rehearsal][property]") {
    const scene_file::SceneFolder folder;
    std::string text = "[camera]\ndistance_m = 100.0\n";
    for (int row = 0; row < 40; ++row) {
        text += "[[row]]\nback_m = " + std::to_string(row) + "\npeople = [";
        for (int i = 0; i < 50; ++i)
            text += "\"P" + std::to_string(50 * row + i) + "\", ";
        text += "]\n";
    }
    auto edited = EditedScene::open(folder.write("crowd.toml", text));
    REQUIRE(edited);
    for (int i = 1; i <= 22; ++i)
        REQUIRE(edited->change("", {"camera.iso=" + std::to_string(100 + i)}));
    int undone = 0;
    for (; edited->can_undo(); ++undone)
        edited->undo();
    CHECK(undone == 19);
    CHECK(edited->scene().camera.iso == 122 - 19);
}
