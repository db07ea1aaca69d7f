#include "window/clicks.h"

#include <catch2/catch.hpp>

using namespace backrow::window;

namespace {

/// A press and a letting go.
void click(Clicks& clicks, double at_s, float x = 100, std::size_t button = 0) {
    clicks.note({.button = button, .is_down = true, .at_s = at_s, .x = x});
    clicks.note({.button = button, .is_down = false, .at_s = at_s + 0.05, .x = x});
}

}  // namespace

TEST_CASE("two clicks between two frames stay two, each where it was", "[window][property]") {
    Clicks clicks;
    click(clicks, 1.0, 100);
    click(clicks, 1.1, 400);
    const float where[]{100, 100, 400, 400};
    bool is_down = true;
    for (const float x : where) {
        CHECK(clicks.has_more());
        const Clicks::Frame frame = clicks.next_frame();
        REQUIRE(frame.event);
        CHECK(frame.event->x == x);
        CHECK(frame.is_down[0] == is_down);
        CHECK_FALSE(frame.is_second);  // of another place
        is_down = !is_down;
    }
    CHECK_FALSE(clicks.has_more());
    CHECK_FALSE(clicks.next_frame().event);
}

TEST_CASE("a double click is one by the clock of the hand, however slowly the window is drawn",
          "[window][property]") {
    Clicks clicks;
    const auto press_is_second = [&] {
        const bool is_second = clicks.next_frame().is_second;
        CHECK_FALSE(clicks.next_frame().is_second);  // let go
        return is_second;
    };
    click(clicks, 1.0);
    click(clicks, 1.2);
    click(clicks, 1.4);
    CHECK_FALSE(press_is_second());
    CHECK(press_is_second());
    CHECK_FALSE(press_is_second());  // the third begins anew
    click(clicks, 3.0);
    click(clicks, 3.5);
    CHECK_FALSE(press_is_second());
    CHECK_FALSE(press_is_second());
    click(clicks, 5.0, 100, 0);
    click(clicks, 5.1, 100, 1);
    CHECK_FALSE(press_is_second());
    CHECK_FALSE(press_is_second());  // of another button
}

TEST_CASE("a button that is held stays held from frame to frame", "[window][property]") {
    Clicks clicks;
    clicks.note({.button = 0, .is_down = true});
    clicks.note({.button = 77, .is_down = true});
    CHECK(clicks.next_frame().is_down[0]);
    CHECK_FALSE(clicks.has_more());
    CHECK(clicks.next_frame().is_down[0]);
    clicks.note({.button = 0, .is_down = false});
    CHECK_FALSE(clicks.next_frame().is_down[0]);
}
