#include "report/drawing/canvas.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::report;

namespace {

constexpr Rgb8 paper{255, 255, 255};
constexpr Rgb8 ink{0, 0, 0};

/// The corner of a page, marked so that no turn but a whole one leaves it as it is.
void draw(Canvas& canvas) {
    canvas.fill({{{2, 3}, {9, 3}, {9, 5}, {2, 5}}}, ink);
    canvas.fill({{{2, 5}, {4, 5}, {4, 11}, {2, 11}}}, ink);
}

}  // namespace

// In planes of private use no font has letters; the other scripts come with what the tests install.
TEST_CASE("letters that no font here has are noticed, and those of usual scripts are not",
          "[report][property]") {
    CHECK(Canvas::lacks_letters("Ana \U0010FFFD"));
    for (const char* name : {"", "Ana", "Žofie, Łukasz", "Преображенская", "अनुराधा चट्टोपाध्याय"}) {
        CAPTURE(name);
        CHECK_FALSE(Canvas::lacks_letters(name));
    }
}

TEST_CASE("what is turned about the middle of a page stands on its head, and the rest does not",
          "[report][property]") {
    constexpr int width_px = 40, height_px = 20;
    Canvas canvas(width_px, height_px, paper);
    canvas.turn_about({width_px / 2.0, height_px / 2.0});
    draw(canvas);
    canvas.turn_no_more();
    const Image<Rgb8> turned = canvas.pixels(1);
    Canvas upright(width_px, height_px, paper);
    draw(upright);
    const Image<Rgb8> as_drawn = upright.pixels(1);
    CHECK(turned.pixels() != as_drawn.pixels());
    for (int y = 0; y < height_px; ++y)
        for (int x = 0; x < width_px; ++x)
            if (turned.at(width_px - 1 - x, height_px - 1 - y) != as_drawn.at(x, y))
                FAIL(x << ", " << y << " is elsewhere");
    draw(canvas);
    CHECK(canvas.pixels(1).at(3, 4) == ink);
}
