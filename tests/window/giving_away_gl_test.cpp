#include "window/giving_away.h"

#include "../delivery/group_of_two.h"
#include "awaited.h"

using namespace backrow;
using namespace backrow::window;

namespace {

GivingAway::End end_of(const delivery::GroupOfTwo& group, bool is_stopped = false) {
    GivingAway giving{std::make_shared<const scene::Scene>(group.scene), group.choices, group.asked,
                      [] {}};
    if (is_stopped)
        giving.stop();
    const auto end = awaited([&] { return giving.end(); });
    CHECK(giving.share() == 1);
    return end;
}

}  // namespace

TEST_CASE("what was given away in the background is told with its place", "[window][property]") {
    delivery::GroupOfTwo group;
    group.tick({"table"});
    CHECK(end_of(group).notice == "Given away: " + group.folder / "duo-table.csv");
    group.tick({"table", "odds"});
    const auto end = end_of(group);
    CHECK_THAT(end.notice, Catch::StartsWith("Given away: 2 files in "));
    CHECK(end.failure.empty());
    CHECK(group.folder.entries() == 2);
}

TEST_CASE("what is stopped in the background leaves the file that was there",
          "[window][property]") {
    delivery::GroupOfTwo group;
    group.tick({"picture"});
    group.choices.size = delivery::PictureSize::camera;
    group.write("duo-picture.jpg", "what was there");
    const auto end = end_of(group, true);
    CHECK(end.notice == "Stopped: nothing was given away.");
    CHECK(end.failure.empty());
    CHECK(group.text("duo-picture.jpg") == "what was there");
    CHECK(group.folder.entries() == 1);
}

TEST_CASE("what failed in the background is told with its mend", "[window][property]") {
    delivery::GroupOfTwo group;
    group.tick({"picture"});
    group.choices.folder = "/no/such/folder";
    const auto end = end_of(group);
    CHECK(end.notice.empty());
    CHECK_THAT(end.failure, Catch::Contains("/no/such") && Catch::Contains("choose another place"));
}
