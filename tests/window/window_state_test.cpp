#include "window/window_state.h"

#include "window/commands/commands.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::window;

namespace {

rehearsal::Sitting sitting_of(const scene_file::SceneFolder& folder, const std::string& name) {
    auto sitting = rehearsal::Sitting::open(
        folder.write(name, "[[row]]\npeople = [\"Ana\", \"Ben\", \"Cleo\"]\n"));
    REQUIRE(sitting);
    return std::move(*sitting);
}

}  // namespace

// What belongs to the scene goes with it; what belongs to whoever sits at the window stays.
TEST_CASE("another scene begins anew, in the window as it was set up", "[window][property]") {
    const scene_file::SceneFolder folder;
    WindowState state{sitting_of(folder, "one.toml"), ""};
    state.make(rehearsal::step(state.sitting.scene(), 1, 0, 0.3));
    state.tab = Tab::odds;
    state.has_marks = false;
    state.notice = "Saved one.toml";
    state.changed_on_disk = true;
    state.pictures.faces[2].print.edition = state.sitting.edition();
    state.pictures.measures[2] = {};
    state.look = {.is_full_size = true, .middle = {100, 100}};
    state.drawings.above.zoom({0, 0}, 2);
    state.drawings.side.zoom({0, 0}, 2);
    state.sheets.show(Sheet::leave);
    state.sheets.open_after_leaving = "two.toml";
    state.sheets.left_behind = "# of the first scene";
    state.kept.two.keep(state.sitting.edited());
    state.kept.keep_look(state.sitting, state.pictures);
    state.kept.is_shown = true;
    AskedAdvice::Limits limits;
    limits.wanted.most_move_cm = 25;
    state.advice.set_limits(limits);
    state.advice.ask(state.sitting.shared_scene(), [] {});
    state.odds.ask(state.sitting.shared_scene(), 2, optics::Grade::crisp, [] {});

    const int before = state.sitting.edition();
    state.take_sitting(sitting_of(folder, "two.toml"));
    CHECK(state.sitting.edition() == before + 1);  // so that no print of before passes for new
    CHECK(state.notice.empty());
    CHECK_FALSE(state.changed_on_disk);
    CHECK(state.pictures.faces.empty());
    CHECK(state.pictures.measures.empty());
    CHECK_FALSE(state.look.is_full_size);
    CHECK(state.drawings.above.is_fitted);
    CHECK(state.drawings.side.is_fitted);
    CHECK(state.sheets.shown == Sheet::none);
    CHECK(state.sheets.open_after_leaving.empty());
    CHECK_FALSE(state.sheets.left_behind);
    CHECK(state.kept.scene() == nullptr);
    CHECK_FALSE(state.kept.facts);
    CHECK(&state.shown_scene() == &state.sitting.scene());
    CHECK_FALSE(state.advice.is_asked());
    CHECK_FALSE(state.odds.is_asked());

    CHECK(state.tab == Tab::odds);
    CHECK_FALSE(state.has_marks);
    CHECK(state.advice.limits().wanted.most_move_cm == 25);
    CHECK(state.odds.grade() == optics::Grade::crisp);
}

TEST_CASE("a change that is refused leaves what was said before", "[window][property]") {
    const scene_file::SceneFolder folder;
    WindowState state{sitting_of(folder, "one.toml"), ""};
    state.notice = "Saved one.toml";
    const int before = state.sitting.edition();
    state.make({.what = "Nonsense", .values = {"camera.f_number=-1"}});
    CHECK(state.sitting.edition() == before);
    CHECK_FALSE(state.sitting.complaint().empty());
    CHECK(state.notice == "Saved one.toml");
    state.make(rehearsal::zoom(85));
    CHECK(state.sitting.edition() == before + 1);
    CHECK(state.notice.empty());
}

TEST_CASE("a scene that cannot be opened says so where it was chosen, with its mend",
          "[window][property]") {
    const scene_file::SceneFolder folder;
    const std::string bad = folder.write("bad.toml", "[camera]\nf_number = 0\n");
    WindowState state{sitting_of(folder, "one.toml"), ""};
    const int before = state.sitting.edition();
    state.shows_first_page = true;
    open(state, bad);
    CHECK(state.first_page.no_scene.find("bad.toml:2") != std::string::npos);
    CHECK(state.first_page.no_scene.find("; write a number") != std::string::npos);
    CHECK(state.sheets.complaint.empty());

    state.first_page.no_scene.clear();
    state.sheets.show(Sheet::open);
    open(state, bad);
    CHECK(state.first_page.no_scene.empty());
    CHECK(state.sheets.complaint.find("bad.toml:2") != std::string::npos);
    CHECK(state.sitting.edition() == before);
}
