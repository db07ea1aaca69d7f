#include "window/pictures/kept_state.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::window;

namespace {

rehearsal::Sitting sitting_of(const scene_file::SceneFolder& folder) {
    auto sitting = rehearsal::Sitting::open(
        folder.write("duo.toml", "[[row]]\npeople = [\"Ana\", \"Ben\"]\n"));
    REQUIRE(sitting);
    return std::move(*sitting);
}

}  // namespace

TEST_CASE("what differs from the kept state is put into words once for each state",
          "[window][property]") {
    const scene_file::SceneFolder folder;
    rehearsal::Sitting sitting = sitting_of(folder);
    KeptState kept;
    kept.compare_with(sitting, Units::metric);
    CHECK(kept.comparison_with(sitting) == nullptr);

    kept.two.keep(sitting.edited());
    kept.keep_look(sitting, {});
    CHECK(kept.edition == sitting.edition());
    kept.compare_with(sitting, Units::metric);
    CHECK(kept.comparison_with(sitting) == nullptr);  // nothing differs

    sitting.make(rehearsal::step(sitting.scene(), 1, 0, 0.3));
    CHECK(kept.comparison_with(sitting) == nullptr);  // not compared yet
    kept.compare_with(sitting, Units::metric);
    const std::string* words = kept.comparison_with(sitting);
    REQUIRE(words != nullptr);
    CHECK_THAT(*words, Catch::StartsWith("Ben 30 cm back; 0.0 stops of light lost"));

    sitting.undo();
    kept.compare_with(sitting, Units::metric);
    CHECK(kept.comparison_with(sitting) == nullptr);
}

TEST_CASE("a kept state can be shown in place of a scene of as many people", "[window][property]") {
    const scene_file::SceneFolder folder;
    const rehearsal::Sitting sitting = sitting_of(folder);
    KeptState kept;
    CHECK_FALSE(kept.can_stand_for(sitting.scene()));
    kept.two.keep(sitting.edited());
    CHECK(kept.can_stand_for(sitting.scene()));
    scene::Scene alone = sitting.scene();
    alone.people.pop_back();
    CHECK_FALSE(kept.can_stand_for(alone));
}
