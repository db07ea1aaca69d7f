#include "papers/card/card_facts.h"

#include "groups.h"

#include "plan/faces/metering.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace backrow;
using namespace backrow::papers;

namespace {

CardFacts facts_of(const std::string& demo, const std::vector<std::string>& overrides = {}) {
    return card_facts(rehearsal::demo_scene(demo, overrides), {});
}

}  // namespace

// By how much an exposure may be off its light: marks lie a third of a stop apart, and what is
// within a sixth of a stop stays; both together are 0.2 (optics/exposure/right_exposure.h).
TEST_CASE("a card's setting suits the light, and so do those for one and two stops less",
          "[papers][property]") {
    constexpr double marks = 0.2;
    CardFacts facts = facts_of("choir");
    CHECK(std::abs(facts.table.metering.stops_over) <= marks);
    for (std::size_t i = 0; i < facts.darker.size(); ++i) {
        scene::Scene darker = facts.scene;
        darker.light.scene_ev100 -= static_cast<double>(i + 1);
        darker.camera.shutter_s = facts.darker[i].shutter_s;
        darker.camera.iso = facts.darker[i].iso;
        darker.camera.filter_stops = facts.darker[i].filter_stops;
        CHECK(std::abs(plan::metering(darker, camera_view(darker)).stops_over) <= marks);
    }
}

TEST_CASE("stopped down for somebody out of line, everybody has that much room, and a third of a "
          "stop wider somebody has not",
          "[papers][property]") {
    const CardFacts facts = facts_of("choir");
    REQUIRE(facts.out_of_line_f_number);
    const auto least_room_m = [&](double f_number) {
        scene::Scene scene = facts.scene;
        scene.camera.f_number = f_number;
        double least_m = INFINITY;
        for (const plan::Face& face : plan::face_table(scene, camera_view(scene)).faces)
            least_m = std::min({least_m, face.margin.front_m, face.margin.back_m});
        return least_m;
    };
    CHECK(*facts.out_of_line_f_number > facts.scene.camera.f_number);
    CHECK(least_room_m(*facts.out_of_line_f_number) >= out_of_line_m);
    const double third_of_a_stop = std::exp2(1.0 / 6);
    CHECK(least_room_m(*facts.out_of_line_f_number / third_of_a_stop) < out_of_line_m);
}

TEST_CASE("rows are counted from the front, and everybody is in one of them",
          "[papers][property]") {
    const CardFacts facts = facts_of("choir");
    REQUIRE(facts.rows.size() == 3);
    std::size_t people = 0;
    for (const StoodRow& row : facts.rows)
        people += row.people.size();
    CHECK(people == facts.scene.people.size());
    CHECK(facts.rows[0].behind_front_m == 0);
    CHECK(facts.rows[1].behind_front_m > 0);
    CHECK(facts.rows[2].behind_front_m > facts.rows[1].behind_front_m);
}

TEST_CASE("without a word on lenses those next to the scene's are asked, and with one, that",
          "[papers][property]") {
    const scene::Scene scene = rehearsal::demo_scene("choir");  // 85 mm
    const auto focal_lengths_mm = [](const CardFacts& facts) {
        std::vector<double> all_mm;
        for (const plan::FramingLens& lens : facts.other_lenses)
            all_mm.push_back(lens.focal_length_mm);
        return all_mm;
    };
    CHECK(focal_lengths_mm(card_facts(scene, {})) == std::vector{50.0, 135.0});
    CHECK(focal_lengths_mm(card_facts(scene, {{.focal_length_mm = 105, .widest_f_number = 2.8}})) ==
          std::vector{105.0});
}
