#include "plan/faces/face_table.h"

#include "arranging/arrange.h"
#include "scene/camera_view.h"

#include <catch2/catch.hpp>

#include <algorithm>

namespace backrow::plan {

// A face counts as seen from 0.9 of it on: hair and the rim of a cheek may lie behind a shoulder.
TEST_CASE("every face of an arranged group is in the picture, clear and crisp",
          "[plan][property]") {
    for (int people = 1; people <= 60; people += people < 12 ? 1 : 7)
        for (int rows = 1; rows <= std::min(people, 5); ++rows)
            for (const bool stagger : {true, false}) {
                CAPTURE(people, rows, stagger);
                const auto arrangement =
                    arranging::arrange({.people = people, .rows = rows, .stagger = stagger});
                REQUIRE(arrangement);
                const scene::Scene scene = scene_of(arrangement->plan);
                for (const Face& face : face_table(scene, camera_view(scene)).faces) {
                    CAPTURE(face.name);
                    CHECK(face.cropping.has_whole_head);
                    CHECK(face.visible_fraction >= 0.9);
                    CHECK(face.grade == optics::Grade::crisp);
                }
            }
}

}  // namespace backrow::plan
