#include "window/frames_due.h"

namespace backrow::window {
namespace {

// How often whoever sleeps looks round; the window is not drawn for it.
constexpr double rest_s = 1.0;
// A pointer that rests this long on something is told about it.
constexpr double before_lesson_s = 0.55;

}  // namespace

double FramesDue::wait_s(Moment now) const noexcept {
    if (due_ > 0)
        return std::max(0.0, std::chrono::duration<double>(not_before_ - now).count());
    return is_lesson_due_ ? before_lesson_s : rest_s;
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

bool FramesDue::take(Moment now) noexcept {
    if (due_ == 0 || now < not_before_)
        return false;
    --due_;
    return true;
}

void FramesDue::note_dragging(Moment begun, Moment now) noexcept {
    not_before_ = now + std::min<Moment::duration>(rest_for_work * (now - begun), longest_rest);
}

}  // namespace backrow::window
