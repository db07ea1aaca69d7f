#include "plan/faces/worst_face.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace backrow::plan;

namespace {

Face face(double blur_px, bool in_frame, double visible_fraction = 1) {
    Face made;
    made.cropping.has_whole_head = in_frame;
    made.predicted_blur_px = blur_px;
    made.visible_fraction = visible_fraction;
    return made;
}

}  // namespace

TEST_CASE("the least sharp is the most blurred of those who are seen whole", "[plan][property]") {
    const std::vector<Face> faces{face(2, true), face(9, false), face(5, true), face(7, true, 0.2)};
    CHECK(worst_face(faces) == 2);
}

TEST_CASE("who is hidden comes before whose head is cut, and both before all blur",
          "[plan][property]") {
    const std::vector<Face> faces{face(2, true), face(9, false), face(5, true), face(0, true, 0.2),
                                  face(7, false)};
    CHECK(worst_first(faces) == std::vector<std::size_t>{3, 1, 4, 2, 0});
}

TEST_CASE("where nobody is whole in the picture the most blurred is the least sharp",
          "[plan][property]") {
    const std::vector<Face> faces{face(2, false), face(9, false)};
    CHECK(worst_face(faces) == 1);
}

TEST_CASE("of equally blurred faces the first of the table is named", "[plan][property]") {
    const std::vector<Face> faces{face(3, true), face(4, true), face(4, true)};
    CHECK(worst_face(faces) == 1);
    CHECK(worst_first(faces) == std::vector<std::size_t>{1, 2, 0});
}
