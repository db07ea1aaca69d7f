#include "window/clicks.h"

#include <cmath>

namespace backrow::window {
namespace {

// As the toolkit has them by itself.
constexpr double second_within_s = 0.30;
constexpr float second_within_px = 6;

bool makes_two(const ButtonEvent& first, const ButtonEvent& second) {
    return first.button == second.button && second.at_s - first.at_s < second_within_s &&
           std::hypot(second.x - first.x, second.y - first.y) < second_within_px;
}

}  // namespace

void Clicks::note(const ButtonEvent& event) {
    if (event.button < pointer_buttons)
        events_.push_back(event);
}

Clicks::Frame Clicks::next_frame() {
    Frame frame;
    if (!events_.empty()) {
        frame.event = events_.front();
        events_.pop_front();
        is_down_[frame.event->button] = frame.event->is_down;
        if (frame.event->is_down) {
            frame.is_second = last_press_ && makes_two(*last_press_, *frame.event);
            // A third press begins anew.
            last_press_ = frame.is_second ? std::nullopt : frame.event;
        }
    }
    frame.is_down = is_down_;
    return frame;
}

}  // namespace backrow::window
