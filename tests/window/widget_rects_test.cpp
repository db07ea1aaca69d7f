#include "window/widget_rects.h"

#include "toolkit.h"

#include "../scene_file/scene_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>

using namespace backrow;
using namespace backrow::window;

namespace {

nlohmann::json read(const std::string& path) {
    return nlohmann::json::parse(std::ifstream{path});
}

}  // namespace

TEST_CASE("a script finds where things are and how the rehearsal stands", "[window][property]") {
    const scene_file::SceneFolder folder;
    const std::string path = folder.write("places.json", "");
    WidgetRects rects{path};
    rects.begin();
    rects.note("tile Odile", {10, 20}, {110, 95.5});
    REQUIRE(rects.end({.edition = 3,
                       .is_settled = true,
                       .undo = "f/4",
                       .chosen = "Odile",
                       .complaint = "no “such” file",
                       .notice = "Saved choir.toml",
                       .sheet = "open",
                       .has_unsaved_changes = true}));
    const auto told = read(path);
    CHECK(told["edition"] == 3);
    CHECK(told["settled"] == true);
    CHECK(told["undo"] == "f/4");
    CHECK(told["chosen"] == "Odile");
    CHECK(told["complaint"] == "no “such” file");
    CHECK(told["notice"] == "Saved choir.toml");
    CHECK(told["sheet"] == "open");
    CHECK(told["unsaved"] == true);
    CHECK(told["typing"] == false);
    CHECK(told["changed_on_disk"] == false);
    CHECK(told["giving_away"] == false);
    CHECK(told["places"]["tile Odile"] == nlohmann::json({10, 20, 110, 95.5}));

    // What is no longer on the window is no longer told.
    rects.begin();
    rects.note("lens", {1, 2}, {3, 4});
    REQUIRE(rects.end({}));
    CHECK(read(path)["places"].size() == 1);
}

TEST_CASE("the file of places is written where something differs, and only there",
          "[window][property]") {
    const scene_file::SceneFolder folder;
    const std::string path = folder.write("places.json", "");
    WidgetRects rects{path};
    const auto frame = [&](int edition) {
        rects.begin();
        rects.note("lens", {1, 2}, {3, 4});
        REQUIRE(rects.end({.edition = edition}));
    };
    frame(1);
    REQUIRE(std::filesystem::remove(path));
    frame(1);
    CHECK_FALSE(std::filesystem::exists(path));
    frame(2);
    CHECK(read(path)["edition"] == 2);
}

TEST_CASE("a folder that is not there is told, and no window asks for one", "[window][property]") {
    WidgetRects nowhere{"/no/such/folder/places.json"};
    CHECK_FALSE(nowhere.end({}));
    WidgetRects unwanted{""};
    CHECK(unwanted.end({}));
}

TEST_CASE("what the wheel must bring first is not told as a place, but as the part's below",
          "[window][property]") {
    const scene_file::SceneFolder folder;
    const std::string path = folder.write("places.json", "");
    WidgetRects rects{path};
    const LetteredToolkit toolkit;
    // A frame later the toolkit knows how long the list is, and then it is told.
    for (int frame = 0; frame < 4; ++frame) {
        ImGui::NewFrame();
        rects.begin();
        ImGui::SetNextWindowPos({50, 20});
        ImGui::SetNextWindowSize({200, 100});
        ImGui::Begin("list");
        for (const char* name : {"near", "far"}) {
            ImGui::Button(name, {300, 150});
            rects.note_last(name);
        }
        rects.note_part("list", 0);
        ImGui::End();
        ImGui::EndFrame();
        CHECK(rects.is_moving() == (frame < 2));
    }
    REQUIRE(rects.end({}));
    const auto told = read(path);
    CHECK(told["places"].contains("near"));
    CHECK_FALSE(told["places"].contains("far"));
    CHECK(told["parts"]["list"]["holds"] == nlohmann::json({"near"}));
    CHECK(told["parts"]["list"]["box"] == nlohmann::json({50, 20, 250, 120}));
    CHECK(told["parts"]["list"]["above"] == 0);
    CHECK(told["parts"]["list"]["below"] > 200);
    // Wider than the list, and no bar leads there.
    CHECK(told["parts"]["list"]["beyond"] > 100);
}

TEST_CASE("whoever does not see the window is told what each control is, and what it shows",
          "[window][property]") {
    const scene_file::SceneFolder folder;
    const std::string path = folder.write("places.json", "");
    WidgetRects rects{path};
    const LetteredToolkit toolkit;
    bool is_level = true;
    for (int frame = 0; frame < 3; ++frame) {
        ImGui::NewFrame();
        rects.begin();
        ImGui::Begin("panel");
        ImGui::Checkbox("level", &is_level);
        rects.note_last("level", Control::tick(is_level));
        ImGui::Button("Redo");
        rects.note_last("redo", {.is_disabled = true});
        ImGui::Button("85 mm");
        rects.note_last("lens", Control::quantity("85 mm"));
        ImGui::End();
        ImGui::EndFrame();
    }
    REQUIRE(rects.end({}));
    const auto controls = read(path)["controls"];
    CHECK(controls["level"] == nlohmann::json({{"role", "tick"}, {"on", true}}));
    CHECK(controls["redo"] == nlohmann::json({{"role", "button"}, {"disabled", true}}));
    CHECK(controls["lens"] == nlohmann::json({{"role", "quantity"}, {"value", "85 mm"}}));
}
