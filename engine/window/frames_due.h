#pragma once

// When the window is drawn: a few frames after every input, one for news of other threads and one
// when the pointer has rested long enough to be told about what it rests on. Else the window
// sleeps, and who does nothing costs nothing. Frames that take long, as those without a graphics
// card do, leave time between them, in a drag and for news that can wait, for the pictures that
// they are to show.

#include <chrono>

namespace backrow::window {

/// What has come from other threads, by how soon it must be shown.
enum class News { none, can_wait, at_once };

class FramesDue {
public:
    using Moment = std::chrono::steady_clock::time_point;

    explicit FramesDue(Moment now) : moved_{now} {}

    /// How long to sleep before whatever is next; 0 where a frame is due.
    [[nodiscard]] double wait_s(Moment now) const noexcept;

    void note_input(Moment now) noexcept;
    /// Woken without input.
    void note_rest(Moment now) noexcept;
    /// There is something new to show.
    void note_news(News news = News::at_once) noexcept;

    /// How long the pointer has not moved.
    [[nodiscard]] double rested_s(Moment now) const noexcept {
        return std::chrono::duration<double>(now - moved_).count();
    }

    /// Whether a frame is due, which then counts as drawn.
    [[nodiscard]] bool take(Moment now) noexcept;
    /// It has been drawn.
    void note_drawn(Moment begun, Moment now, bool is_dragging) noexcept;

private:
    // The toolkit needs frames beyond the one with the input: for what appears, and what was let
    // go.
    static constexpr int after_input = 3;
    // How long to leave alone whoever makes the pictures, in frames.
    static constexpr int rest_in_drag = 2;
    static constexpr std::chrono::milliseconds longest_rest_in_drag{40};
    static constexpr int rest_before_news = 6;
    static constexpr std::chrono::milliseconds longest_rest_before_news{150};

    int due_ = after_input;
    Moment moved_;
    Moment not_before_{};
    bool has_waiting_news_ = false;
    Moment news_not_before_{};
    bool is_lesson_due_ = false;
};

}  // namespace backrow::window
