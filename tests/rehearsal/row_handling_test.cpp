#include "rehearsal/hands/row_handling.h"

#include "rehearsal/hands/drag.h"
#include "rehearsal/sitting/edited_scene.h"
#include "rehearsal/sitting/facts.h"

#include "../scene_file/scene_folder.h"

#include "scene/rows.h"
#include "scene/set_people.h"

#include "trio.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

const std::string two_rows = R"([camera]
f_number   = 2.8
distance_m = 5.0
aim        = [0.0, 1.4, 0.3]
[[row]]  # in front
people    = ["Ana", "Ben", "Cleo"]
spacing_m = 0.6
[[row]]
back_m    = 0.5
up_m      = 0.3
spacing_m = 0.6
people    = ["Dan", "Ella"]
[[person]]
name      = "Ella"
back_m    = 0.05
)";

struct Opened {
    scene_file::SceneFolder folder;
    EditedScene edited = *EditedScene::open(folder.write("two.toml", two_rows));

    [[nodiscard]] const scene::Scene& scene() const { return edited.scene(); }
    [[nodiscard]] std::size_t index(const std::string& name) const {
        return static_cast<std::size_t>(
            std::ranges::find(scene().people, name, &scene::Person::name) - scene().people.begin());
    }
    void make(const Change& change, DragId drag = 0) {
        const auto made = edited.change(change.what, change.values, drag);
        INFO(change.what << ": " << (made ? "" : to_line(made.error().front())));
        REQUIRE(made);
    }
    /// As the rows stand, hindmost first.
    [[nodiscard]] std::vector<std::vector<std::string>> rows() const {
        std::vector<std::vector<std::string>> names;
        for (const auto& row : as_they_stand(scene(), camera_view(scene()))) {
            names.emplace_back();
            for (const std::size_t i : row)
                names.back().push_back(scene().people[i].name);
        }
        return names;
    }
};

using Rows = std::vector<std::vector<std::string>>;

}  // namespace

TEST_CASE("somebody put into another row stands in its line, and the others close up",
          "[rehearsal][property]") {
    Opened opened;
    CHECK(opened.rows() == Rows{{"Dan", "Ella"}, {"Ana", "Ben", "Cleo"}});
    opened.make(stand_in_row(opened.scene(), opened.index("Ella"), 0, 1));
    CHECK(opened.rows() == Rows{{"Dan"}, {"Ana", "Ella", "Ben", "Cleo"}});
    const scene::Person& ella = opened.scene().people[opened.index("Ella")];
    CHECK(ella.place.back_m == 0);
    CHECK(ella.place.across_m == Approx(-0.3));
    CHECK(opened.edited.text().find("# in front") != std::string::npos);
    opened.edited.undo();
    CHECK(opened.edited.text() == two_rows);
}

TEST_CASE("a new row stands as far behind the last, and as much higher, as that does",
          "[rehearsal][property]") {
    Opened opened;
    opened.make(stand_in_row(opened.scene(), opened.index("Ben"), 2, 0));
    REQUIRE(scene::row_count(opened.scene()) == 3);
    CHECK(row_line(opened.scene(), 2).back_m == Approx(1.0));
    CHECK(row_line(opened.scene(), 2).up_m == Approx(0.6));
    CHECK(opened.rows() == Rows{{"Ben"}, {"Dan", "Ella"}, {"Ana", "Cleo"}});
}

TEST_CASE("whoever leaves a row stays where they stood", "[rehearsal][property]") {
    Opened opened;
    const scene::FromMark before = opened.scene().people[opened.index("Ella")].place;
    opened.make(leave_row(opened.scene(), opened.index("Ella")));
    const scene::Person& ella = opened.scene().people[opened.index("Ella")];
    CHECK(ella.row == -1);
    CHECK(ella.place.across_m == Approx(before.across_m).margin(0.005));
    CHECK(ella.place.back_m == Approx(before.back_m));
    CHECK(ella.place.up_m == Approx(before.up_m));
    opened.make(stand_in_row(opened.scene(), opened.index("Ella"), 1, 0));
    CHECK(opened.rows() == Rows{{"Ella", "Dan"}, {"Ana", "Ben", "Cleo"}});
}

// One drag from the front row's left end past a neighbour, into the back row, and home again.
TEST_CASE("who is dragged past a neighbour stands on their other side, and in the row that is "
          "nearest",
          "[rehearsal][property]") {
    Opened opened;
    const auto to = [&](const Grip& grip, double across_m, double back_m) {
        const Facts facts = facts_of(opened.scene(), {});
        opened.make(drag_to(opened.scene(), facts, grip, {.at = {across_m, back_m}}), 1);
    };
    const Facts facts = facts_of(opened.scene(), {});
    const plan::DrawingPoint ana = facts.above.people[opened.index("Ana")].place;
    const Press press = press_from_above(opened.scene(), facts, {.at = ana, .reach_m = 0.05}, {});
    REQUIRE(press.grip);
    to(*press.grip, 0.1, 0.1);
    CHECK(opened.rows() == Rows{{"Dan", "Ella"}, {"Ben", "Ana", "Cleo"}});
    to(*press.grip, 0.1, 0.1);
    CHECK(opened.scene().people[opened.index("Ana")].place.across_m == Approx(0.1));
    to(*press.grip, 0.0, 0.4);
    CHECK(opened.rows() == Rows{{"Dan", "Ana", "Ella"}, {"Ben", "Cleo"}});
    to(*press.grip, -0.9, 0.2);
    CHECK(opened.rows() == Rows{{"Dan", "Ella"}, {"Ana", "Ben", "Cleo"}});
    opened.edited.undo();
    CHECK(opened.edited.text() == two_rows);
    CHECK_FALSE(opened.edited.can_undo());
}

// Steps are whole centimetres, 29 pixels here.
TEST_CASE("people are dragged in the picture by their faces: along the row, into another, and with "
          "Shift away from the camera",
          "[rehearsal][property]") {
    Opened opened;
    const auto eye_of = [&](const std::string& name) {
        const scene::CameraView view = camera_view(opened.scene());
        const glm::dvec2 at =
            project(view, nearer_eye_m(view, opened.scene().people[opened.index(name)])).at_px;
        return plan::DrawingPoint{at.x, at.y};
    };
    const auto dragged = [&](const std::string& name, const plan::DrawingPoint& to,
                             bool with_shift) {
        const Facts facts = facts_of(opened.scene(), {});
        const Press press =
            press_on_face(opened.scene(), facts, {.at = eye_of(name)}, opened.index(name), {});
        REQUIRE(press.grip);
        CHECK(drawing_of(*press.grip) == Drawing::picture);
        opened.make(
            drag_to(opened.scene(), facts, *press.grip, {.at = to, .with_shift = with_shift}));
    };
    const plan::DrawingPoint cleo = eye_of("Cleo");
    const scene::FromMark before = opened.scene().people[opened.index("Cleo")].place;
    dragged("Cleo", {cleo.x_m + 100, cleo.y_m}, false);
    CHECK(eye_of("Cleo").x_m == Approx(cleo.x_m + 100).margin(15));
    dragged("Cleo", {eye_of("Cleo").x_m, cleo.y_m - 100}, true);
    CHECK(opened.scene().people[opened.index("Cleo")].place.back_m > before.back_m + 0.02);
    dragged("Cleo", {eye_of("Dan").x_m - 200, eye_of("Dan").y_m}, false);
    CHECK(opened.rows() == Rows{{"Cleo", "Dan", "Ella"}, {"Ana", "Ben"}});
}
