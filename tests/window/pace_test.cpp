#include "window/pictures/pace.h"

#include <catch2/catch.hpp>

using namespace backrow::window;

namespace {

/// Pictures of a machine that takes so long for each pass of a picture of full size.
void rehearse_on(Pace& pace, double full_pass_s, double rest_s, int pictures) {
    for (int i = 0; i < pictures; ++i) {
        const int passes = pace.passes();
        pace.note(passes, passes * full_pass_s * pace.scale() * pace.scale(), rest_s);
    }
}

double takes_s(const Pace& pace, double full_pass_s, double rest_s) {
    return rest_s + pace.passes() * full_pass_s * pace.scale() * pace.scale();
}

}  // namespace

TEST_CASE("a quick picture comes in time, on whatever machine", "[window][property]") {
    constexpr double budget_s = 0.048;
    for (const double full_pass_s : {0.0001, 0.001, 0.01, 0.05, 0.1}) {
        CAPTURE(full_pass_s);
        Pace pace{budget_s};
        rehearse_on(pace, full_pass_s, 0.005, 50);
        CHECK(takes_s(pace, full_pass_s, 0.005) <= budget_s * (1 + 1e-9));
        CHECK(pace.passes() >= 1);
    }
}

TEST_CASE("a quicker machine has a better quick picture", "[window][property]") {
    Pace quick{0.048}, slow{0.048};
    rehearse_on(quick, 0.0005, 0.001, 50);
    rehearse_on(slow, 0.05, 0.001, 50);
    CHECK(quick.scale() == 1.0);
    CHECK(quick.scale() > slow.scale());
    CHECK(quick.passes() > slow.passes());
}

TEST_CASE("where nothing can come in time, the least there is comes", "[window][property]") {
    Pace pace{0.048};
    rehearse_on(pace, 3.0, 1.0, 50);
    const double least = pace.scale();
    CHECK(pace.passes() == 1);
    CHECK(least > 0);
    // And when the machine has time again, so has the picture.
    rehearse_on(pace, 0.0005, 0.001, 50);
    CHECK(pace.scale() > least);
}

TEST_CASE(
    "where triangles take the time, a quick picture is as large as the last that comes in time",
    "[window][property]") {
    constexpr double budget_s = 0.042;
    Pace pace{budget_s};
    int late = 0;
    for (int i = 0; i < 300; ++i) {
        const int passes = pace.passes();
        const double texels_s = 0.060 * pace.scale() * pace.scale();
        const double pass_s = 0.022 + texels_s;
        late += passes * pass_s > budget_s ? 1 : 0;
        pace.note(passes, passes * pass_s, 0);
    }
    CHECK(pace.scale() == 0.5);
    // A size beyond it is tried now and then.
    CHECK(late <= 300 / 25);
}
