#include "window/frames_due.h"

namespace backrow::window {
namespace {

// How often whoever sleeps looks round; the window is not drawn for it.
constexpr double rest_s = 1.0;
// A pointer that rests this long on something is told about it.
constexpr double before_lesson_s = 0.55;

}  // namespace

double FramesDue::wait_s() const noexcept {
    return due_ > 0 ? 0 : is_lesson_due_ ? before_lesson_s : rest_s;
}

void FramesDue::note_input(Moment now) noexcept {
    due_ = after_input;
    moved_ = now;
    is_lesson_due_ = true;
}

void FramesDue::note_rest(Moment now) noexcept {
    if (!is_lesson_due_ || rested_s(now) <= before_lesson_s)
        return;
    is_lesson_due_ = false;
    note_news();
}

bool FramesDue::take() noexcept {
    if (due_ == 0)
        return false;
    --due_;
    return true;
}

}  // namespace backrow::window
