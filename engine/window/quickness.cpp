#include "window/quickness.h"

#include <utility>

namespace backrow::window {

void Quickness::note_picture(int edition, bool shows_all, std::optional<rehearsal::DragId> drag,
                             Moment now) {
    if (asked_ && shows_all && edition == asked_edition_) {
        const std::chrono::duration<double, std::milli> took =
            now - *std::exchange(asked_, std::nullopt);
        first_answer_ms_ = took.count();
    }
    if (drag)
        note_drag_picture(*drag, now);
}

// A hand that rests gets no new pictures, so only stretches in which it kept moving count: those
// whose next picture came before long.
void Quickness::note_drag_picture(rehearsal::DragId drag, Moment now) {
    constexpr double resting_s = 0.5;
    const auto before = std::exchange(last_drag_picture_, now);
    if (measured_drag_ != drag) {
        measured_drag_ = drag;
        drag_pictures_ = 0;
        drag_s_ = 0;
        return;
    }
    const double apart_s = std::chrono::duration<double>(now - before).count();
    if (apart_s > resting_s)
        return;
    ++drag_pictures_;
    drag_s_ += apart_s;
    drag_pictures_per_s_ = drag_pictures_ / drag_s_;
}

}  // namespace backrow::window
