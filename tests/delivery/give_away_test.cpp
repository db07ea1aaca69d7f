#include "group_of_two.h"

#include "report/faces/face_report.h"
#include "report/tradeoff/tradeoff_chart.h"

#include "base/files_read.h"

#include <filesystem>

using namespace backrow;
using namespace backrow::delivery;

TEST_CASE("all that is ticked is written, under the names on the sheet", "[delivery][property]") {
    GroupOfTwo group;
    group.tick({"chart", "table", "odds", "advice"});
    group.piece("odds").tail = ", how many frames";
    CHECK(standing_already(group.choices).empty());
    const auto given = group.give();
    REQUIRE(given);
    CHECK(*given == std::vector<std::string>{group.folder / "duo-chart.pdf",
                                             group.folder / "duo-table.csv",
                                             group.folder / "duo, how many frames.txt",
                                             group.folder / "duo-advice.txt"});
    CHECK(group.folder.entries() == 4);
    CHECK(standing_already(group.choices) == *given);
    CHECK(group.text("duo-chart.pdf").starts_with("%PDF"));
    CHECK_THAT(group.text("duo-table.csv"), Catch::Contains("Odile") && Catch::Contains("Bram"));
    CHECK_THAT(group.text("duo, how many frames.txt"), Catch::Contains("Frames to shoot"));
    CHECK_THAT(group.text("duo-advice.txt"), Catch::Contains("To keep every face fine"));
}

TEST_CASE("progress goes on from nothing to the whole, and says of what", "[delivery][property]") {
    GroupOfTwo group;
    group.tick({"chart", "table", "advice"});
    double last = 0;
    std::vector<std::string> told;
    REQUIRE(group.give([&](double share, const char* words) {
        CHECK(share >= last);
        CHECK(share <= 1.0 + 1e-9);
        last = share;
        if (told.empty() || told.back() != words)
            told.emplace_back(words);
        return true;
    }));
    CHECK(last == Approx(1));
    CHECK(told == std::vector<std::string>{"Chart of distance and aperture", "Table of the faces",
                                           "Advice"});
}

TEST_CASE("whoever stops gets nothing, whenever it is, and keeps what was there",
          "[delivery][property]") {
    GroupOfTwo group;
    group.tick({"chart", "table"});
    group.write("duo-table.csv", "what was there");
    for (int calls = 0; calls < 4; ++calls) {
        int left = calls;
        const auto given = group.give([&](double, const char*) { return left-- > 0; });
        REQUIRE_FALSE(given);
        CHECK(to_line(given.error()).empty());
        CHECK(group.folder.entries() == 1);
        CHECK(group.text("duo-table.csv") == "what was there");
    }
}

TEST_CASE("what cannot be made leaves nothing of all the rest, and says how to mend it",
          "[delivery][property]") {
    GroupOfTwo group;
    group.tick({"chart", "strip"});
    group.scene.camera.height_m = 30;
    group.scene.camera.aim = scene::FromMark{0, 60, 0};
    const auto given = group.give();
    REQUIRE_FALSE(given);
    CHECK_THAT(to_line(given.error()), Catch::Contains("nobody's face lies whole in the frame") &&
                                           Catch::Contains("aim elsewhere"));
    CHECK(group.folder.entries() == 0);
}

TEST_CASE("what hinders it is told before the work, with its mend", "[delivery][property]") {
    GroupOfTwo group;
    CHECK_THAT(group.hindered(), Catch::Contains("tick what"));
    group.tick({"chart", "table"});
    CHECK(group.hindered().empty());

    group.piece("chart").tail = "/chart";
    CHECK_THAT(group.hindered(), Catch::Contains("no name for a file"));
    group.piece("chart").tail = "\n";
    CHECK_THAT(group.hindered(), Catch::Contains("no name for a file"));
    group.piece("chart").tail = "";
    group.choices.stem = ".duo";
    CHECK_THAT(group.hindered(), Catch::Contains("no name for a file"));
    group.choices.stem = "";
    CHECK_THAT(group.hindered(), Catch::Contains("no name for a file"));
    group.choices.stem = "duo";

    group.tick({"picture", "strip"});
    group.choices.format = PictureFormat::png;
    group.piece("picture").tail = group.piece("strip").tail;
    CHECK_THAT(group.hindered(), Catch::Contains("two files would be called duo-strip.png"));

    group.tick({"table"});
    group.choices.folder = group.folder / "nowhere";
    CHECK_THAT(group.hindered(), Catch::Contains("there is no folder"));
    group.choices.folder.clear();
    CHECK_THAT(group.hindered(), Catch::Contains("no folder is chosen"));
}

TEST_CASE("nothing is given away over the scene that it is made from", "[delivery][property]") {
    GroupOfTwo group;
    group.tick({"table"});
    group.write("duo-table.csv", "a part of the scene");
    note_read(group.folder / "duo-table.csv");
    CHECK_THAT(group.hindered(), Catch::Contains("the scene or something in it"));
    CHECK_FALSE(group.give());
    CHECK(group.text("duo-table.csv") == "a part of the scene");
}

TEST_CASE("a picture is as wide as chosen, and no wider than the camera's",
          "[delivery][property]") {
    const GroupOfTwo group;
    scene::CameraView view = camera_view(group.scene);
    Choices choices = group.choices;
    CHECK(picture_width_px(choices, view) == 1920);
    choices.size = PictureSize::camera;
    CHECK(picture_width_px(choices, view) == 6000);
    choices.size = PictureSize::own;
    choices.own_width_px = 2500;
    CHECK(picture_width_px(choices, view) == 2500);
    choices.own_width_px = 9000;
    CHECK(picture_width_px(choices, view) == 6000);
    std::swap(view.width_px, view.height_px);
    choices.size = PictureSize::screen;
    CHECK(picture_width_px(choices, view) == 1280);
}
