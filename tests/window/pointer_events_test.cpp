#include "window/pointer_events.h"

#include <catch2/catch.hpp>

using namespace backrow::window;

namespace {

using What = PointerEvent::What;

/// A press and a letting go.
void click(PointerEvents& pointer, double at_s, float x = 100, std::size_t button = 0) {
    pointer.note({.what = What::press, .button = button, .at_s = at_s, .x = x});
    pointer.note({.what = What::release, .button = button, .at_s = at_s + 0.05, .x = x});
}

}  // namespace

TEST_CASE("two clicks between two frames stay two, each where it was", "[window][property]") {
    PointerEvents pointer;
    click(pointer, 1.0, 100);
    click(pointer, 1.1, 400);
    const float where[]{100, 100, 400, 400};
    bool is_down = true;
    for (const float x : where) {
        CHECK(pointer.has_more());
        const PointerEvents::Frame frame = pointer.next_frame();
        REQUIRE(frame.event);
        CHECK(frame.event->x == x);
        CHECK(pointer.is_down()[0] == is_down);
        CHECK_FALSE(frame.is_second);  // of another place
        is_down = !is_down;
    }
    CHECK_FALSE(pointer.has_more());
    CHECK_FALSE(pointer.next_frame().event);
}

TEST_CASE("a double click is one by the clock of the hand, however slowly the window is drawn",
          "[window][property]") {
    PointerEvents pointer;
    const auto press_is_second = [&] {
        const bool is_second = pointer.next_frame().is_second;
        CHECK_FALSE(pointer.next_frame().is_second);  // let go
        return is_second;
    };
    click(pointer, 1.0);
    click(pointer, 1.2);
    click(pointer, 1.4);
    CHECK_FALSE(press_is_second());
    CHECK(press_is_second());
    CHECK_FALSE(press_is_second());  // the third begins anew
    click(pointer, 3.0);
    click(pointer, 3.5);
    CHECK_FALSE(press_is_second());
    CHECK_FALSE(press_is_second());
    click(pointer, 5.0, 100, 0);
    click(pointer, 5.1, 100, 1);
    CHECK_FALSE(press_is_second());
    CHECK_FALSE(press_is_second());  // of another button
}

TEST_CASE("a button that is held stays held from frame to frame", "[window][property]") {
    PointerEvents pointer;
    pointer.note({.what = What::press, .button = 0});
    pointer.note({.what = What::press, .button = 77});
    CHECK(pointer.next_frame().event);
    CHECK(pointer.is_down()[0]);
    CHECK_FALSE(pointer.has_more());
    CHECK_FALSE(pointer.next_frame().event);
    CHECK(pointer.is_down()[0]);
    pointer.note({.what = What::release, .button = 0});
    CHECK(pointer.next_frame().event);
    CHECK_FALSE(pointer.is_down()[0]);
}

TEST_CASE("a wheel turned right after a click turns after it, and where the pointer was then",
          "[window][property]") {
    PointerEvents pointer;
    click(pointer, 1.0, 100);
    for (int notch = 0; notch < 3; ++notch)
        pointer.note({.what = What::wheel, .wheel_up = -1, .x = 400});
    pointer.note({.what = What::wheel, .wheel_up = -1, .x = 500});
    pointer.note({.what = What::wheel, .wheel_up = -1, .x = 500, .ctrl = true});
    CHECK(pointer.noted() == 5);
    CHECK(pointer.next_frame().event->wheel_up == 0);
    CHECK(pointer.next_frame().event->wheel_up == 0);
    CHECK(pointer.taken() == 2);
    const PointerEvents::Frame turned = pointer.next_frame();
    CHECK(turned.event->wheel_up == -3);
    CHECK(turned.event->x == 400);
    CHECK_FALSE(pointer.is_down()[0]);
    CHECK(pointer.next_frame().event->x == 500);
    CHECK(pointer.next_frame().event->ctrl);
    CHECK(pointer.taken() == pointer.noted());
    CHECK_FALSE(pointer.has_more());
}
