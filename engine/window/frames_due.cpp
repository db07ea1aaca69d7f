#include "window/frames_due.h"

#include <algorithm>

namespace backrow::window {
namespace {

// How often whoever sleeps looks round; the window is not drawn for it.
constexpr double rest_s = 1.0;
// A pointer that rests this long on something is told about it.
constexpr double before_lesson_s = 0.55;

}  // namespace

double FramesDue::wait_s(Moment now) const noexcept {
    const auto until = [now](Moment then) {
        return std::max(0.0, std::chrono::duration<double>(then - now).count());
    };
    if (due_ > 0)
        return until(not_before_);
    const double sleep_s = is_lesson_due_ ? before_lesson_s : rest_s;
    return has_waiting_news_ ? std::min(sleep_s, until(news_not_before_)) : sleep_s;
}

void FramesDue::note_news(News news) noexcept {
    has_waiting_news_ |= news == News::can_wait;
    if (news != News::at_once)
        return;
    due_ = std::max(due_, 1);
    not_before_ = {};
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
    if (due_ == 0 && has_waiting_news_ && now >= news_not_before_)
        note_news();
    if (due_ == 0 || now < not_before_)
        return false;
    --due_;
    has_waiting_news_ = false;
    return true;
}

void FramesDue::note_drawn(Moment begun, Moment now, bool is_dragging) noexcept {
    const auto after = [&](int frames, Moment::duration longest) {
        return now + std::min(frames * (now - begun), longest);
    };
    news_not_before_ = after(rest_before_news, longest_rest_before_news);
    if (is_dragging)
        not_before_ = after(rest_in_drag, longest_rest_in_drag);
}

}  // namespace backrow::window
