#include "window/pointer_events.h"

#include <cmath>

namespace backrow::window {
namespace {

// As the toolkit has them by itself.
constexpr double second_within_s = 0.30;
constexpr float second_within_px = 6;

bool makes_two(const PointerEvent& first, const PointerEvent& second) {
    return first.button == second.button && second.at_s - first.at_s < second_within_s &&
           std::hypot(second.x - first.x, second.y - first.y) < second_within_px;
}

bool turns_on(const PointerEvent& wheel, const PointerEvent& next) {
    constexpr auto turn = PointerEvent::What::wheel;
    return wheel.what == turn && next.what == turn && wheel.x == next.x && wheel.y == next.y &&
           wheel.ctrl == next.ctrl && wheel.shift == next.shift && wheel.alt == next.alt;
}

}  // namespace

void PointerEvents::note(const PointerEvent& event) {
    if (event.button >= pointer_buttons)
        return;
    if (!events_.empty() && turns_on(events_.back(), event)) {
        events_.back().wheel_across += event.wheel_across;
        events_.back().wheel_up += event.wheel_up;
        return;
    }
    events_.push_back(event);
}

PointerEvents::Frame PointerEvents::next_frame() {
    Frame frame;
    if (!events_.empty()) {
        frame.event = events_.front();
        events_.pop_front();
        ++taken_;
        const PointerEvent& event = *frame.event;
        if (event.what != PointerEvent::What::wheel)
            is_down_[event.button] = event.what == PointerEvent::What::press;
        if (event.what == PointerEvent::What::press) {
            frame.is_second = last_press_ && makes_two(*last_press_, event);
            // A third press begins anew.
            last_press_ = frame.is_second ? std::nullopt : frame.event;
        }
    }
    return frame;
}

}  // namespace backrow::window
