#include "window/frames_due.h"

#include <catch2/catch.hpp>

using namespace backrow::window;
using namespace std::chrono_literals;

namespace {

const FramesDue::Moment start{};

int drawn(FramesDue& due, FramesDue::Moment now = start) {
    int frames = 0;
    while (due.take(now))
        ++frames;
    return frames;
}

}  // namespace

TEST_CASE("input is drawn at once and a few frames long, then the window sleeps",
          "[window][property]") {
    FramesDue due{start};
    CHECK(due.wait_s(start) == 0);
    CHECK(drawn(due) > 1);
    CHECK(due.wait_s(start) > 0.5);
    due.note_input(start + 1s);
    CHECK(due.wait_s(start) == 0);
    CHECK(drawn(due) > 1);
    CHECK(drawn(due) == 0);
}

TEST_CASE("a pointer that rests is told once, and moving it begins anew", "[window][property]") {
    FramesDue due{start};
    due.note_input(start);
    drawn(due);
    const double before_lesson_s = due.wait_s(start);
    due.note_rest(start + 100ms);
    CHECK(drawn(due) == 0);
    CHECK(due.rested_s(start + 100ms) == Approx(0.1));
    due.note_rest(start + 600ms);
    CHECK(drawn(due) == 1);
    CHECK(due.wait_s(start) > before_lesson_s);
    due.note_rest(start + 5s);
    CHECK(drawn(due) == 0);
    due.note_input(start + 6s);
    CHECK(due.rested_s(start + 6s) == 0);
    drawn(due);
    due.note_rest(start + 7s);
    CHECK(drawn(due) == 1);
}

TEST_CASE("news is one frame, however much there is, and takes none from input",
          "[window][property]") {
    FramesDue due{start};
    const int after_input = drawn(due);
    due.note_news();
    due.note_news();
    CHECK(drawn(due) == 1);
    due.note_input(start + 1s);
    due.note_news();
    CHECK(drawn(due) == after_input);
}

TEST_CASE("in a drag, frames that take long leave time between them", "[window][property]") {
    FramesDue due{start};
    due.note_drawn(start, start + 10ms, true);
    CHECK(drawn(due, start + 20ms) == 0);
    CHECK(due.wait_s(start + 20ms) == Approx(0.01));
    CHECK(drawn(due, start + 30ms) > 1);
    due.note_drawn(start, start + 10ms, true);
    due.note_news();  // a picture that is there is shown, and the next one ordered
    CHECK(drawn(due, start + 12ms) > 0);
    due.note_input(start + 1s);
    due.note_drawn(start + 1s, start + 2s, true);  // never so long that the hand would feel it
    CHECK(drawn(due, start + 2s + 50ms) > 1);
}

TEST_CASE(
    "news that can wait comes after a rest from frames that take long, with other news or input",
    "[window][property]") {
    FramesDue due{start};
    drawn(due);
    due.note_drawn(start, start + 20ms, false);
    due.note_news(News::none);
    CHECK(drawn(due, start + 1s) == 0);
    due.note_news(News::can_wait);
    CHECK(drawn(due, start + 21ms) == 0);
    const double wait_s = due.wait_s(start + 20ms);
    CHECK(wait_s > 0.02);
    CHECK(wait_s <= 0.15);
    CHECK(drawn(due, start + 171ms) == 1);
    CHECK(due.wait_s(start + 171ms) > 0.2);

    due.note_news(News::can_wait);
    due.note_news();
    CHECK(drawn(due, start + 21ms) == 1);
    CHECK(drawn(due, start + 171ms) == 0);
    due.note_news(News::can_wait);
    due.note_input(start + 21ms);
    CHECK(due.wait_s(start + 21ms) == 0);
    CHECK(drawn(due, start + 21ms) > 1);
    CHECK(drawn(due, start + 171ms) == 0);

    due.note_drawn(start, start + 1ms, false);  // a graphics card's frames are soon drawn
    due.note_news(News::can_wait);
    CHECK(drawn(due, start + 10ms) == 1);
}
