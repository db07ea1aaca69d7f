#pragma once

// How quickly the pictures answered the hand.

#include "rehearsal/sitting/edited_scene.h"

#include <chrono>
#include <optional>

namespace backrow::window {

class Quickness {
public:
    using Moment = std::chrono::steady_clock::time_point;

    /// From now on the first picture of this edition is waited for.
    void ask(int edition, Moment now) {
        asked_ = now;
        asked_edition_ = edition;
    }
    /// A picture has come.
    ///
    /// shows_all  nothing in it is as it was before the edition
    /// drag       that goes on; nothing for none
    void note_picture(int edition, bool shows_all, std::optional<rehearsal::DragId> drag,
                      Moment now);

    /// From the last change to the first picture that shows all of it; 0 before there was one.
    [[nodiscard]] double first_answer_ms() const noexcept { return first_answer_ms_; }
    /// In the last drag that had two, while the hand kept moving; 0 before there was one.
    [[nodiscard]] double drag_pictures_per_s() const noexcept { return drag_pictures_per_s_; }

private:
    void note_drag_picture(rehearsal::DragId drag, Moment now);

    std::optional<Moment> asked_;
    int asked_edition_ = 0;
    double first_answer_ms_ = 0;
    rehearsal::DragId measured_drag_ = 0;
    Moment last_drag_picture_;
    int drag_pictures_ = 0;
    double drag_s_ = 0;
    double drag_pictures_per_s_ = 0;
};

}  // namespace backrow::window
