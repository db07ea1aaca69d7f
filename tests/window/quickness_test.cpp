#include "window/quickness.h"

#include <catch2/catch.hpp>

using namespace backrow::window;
using namespace std::chrono_literals;

namespace {

const Quickness::Moment start{};

}  // namespace

TEST_CASE("an answer is the first picture of the edition that was asked for",
          "[window][property]") {
    Quickness quickness;
    CHECK(quickness.first_answer_ms() == 0);
    quickness.ask(5, start);
    quickness.note_picture(4, true, std::nullopt, start + 20ms);
    CHECK(quickness.first_answer_ms() == 0);
    quickness.note_picture(5, true, std::nullopt, start + 80ms);
    CHECK(quickness.first_answer_ms() == Approx(80));
    // Each further picture of it is only better, not sooner.
    quickness.note_picture(5, true, std::nullopt, start + 300ms);
    CHECK(quickness.first_answer_ms() == Approx(80));
    // Of many changes in a row the last counts.
    quickness.ask(6, start + 1000ms);
    quickness.ask(7, start + 1010ms);
    quickness.note_picture(7, false, std::nullopt, start + 1030ms);  // all but a new backdrop
    quickness.note_picture(7, true, std::nullopt, start + 1050ms);
    CHECK(quickness.first_answer_ms() == Approx(40));
}

// Eleven pictures, a tenth of a second apart, are ten stretches in one second.
TEST_CASE("pictures a second of a drag are counted while the hand moves", "[window][property]") {
    Quickness quickness;
    Quickness::Moment now = start;
    for (int i = 0; i <= 10; ++i, now += 100ms)
        quickness.note_picture(i, true, 1, now);
    CHECK(quickness.drag_pictures_per_s() == Approx(10));
    // A rest of three seconds is no slow picture.
    quickness.note_picture(11, true, 1, now + 3s);
    CHECK(quickness.drag_pictures_per_s() == Approx(10));
    // Nor is a picture without any drag part of one.
    quickness.note_picture(12, true, std::nullopt, now + 3s + 10ms);
    CHECK(quickness.drag_pictures_per_s() == Approx(10));
}

TEST_CASE("another drag is measured anew, from its second picture on", "[window][property]") {
    Quickness quickness;
    quickness.note_picture(1, true, 1, start);
    quickness.note_picture(2, true, 1, start + 100ms);
    quickness.note_picture(3, true, 2, start + 110ms);
    CHECK(quickness.drag_pictures_per_s() == Approx(10));
    quickness.note_picture(4, true, 2, start + 160ms);
    CHECK(quickness.drag_pictures_per_s() == Approx(20));
}
