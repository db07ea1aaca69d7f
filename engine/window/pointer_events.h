#pragma once

// What the pointer did, a press, a letting go or a turn of its wheel at a time, each where it was
// then. The toolkit looks at it once a frame; on a machine that draws slowly two clicks would be
// one, what was clicked first would be looked for where the pointer is now, and a wheel that was
// turned next would have moved it away from there.

#include <array>
#include <cstddef>
#include <deque>
#include <optional>

namespace backrow::window {

inline constexpr std::size_t pointer_buttons = 5;

struct PointerEvent {
    enum class What { press, release, wheel };

    What what = What::press;
    std::size_t button = 0;
    float wheel_across = 0;  ///< Notches.
    float wheel_up = 0;
    double at_s = 0;  ///< On any clock.
    float x = 0;      ///< Where the pointer was …
    float y = 0;
    bool ctrl = false;  ///< … and what was held.
    bool shift = false;
    bool alt = false;
};

class PointerEvents {
public:
    /// Of a button beyond the last nothing is noted. Turns of the wheel in one place are one.
    void note(const PointerEvent& event);

    /// Of all that happened since, the first.
    struct Frame {
        std::optional<PointerEvent> event;  ///< That this frame is about.
        bool is_second = false;             ///< It makes two clicks of one.
    };
    [[nodiscard]] Frame next_frame();
    /// As the last frame saw them.
    [[nodiscard]] const std::array<bool, pointer_buttons>& is_down() const noexcept {
        return is_down_;
    }
    /// There is more to see in further frames.
    [[nodiscard]] bool has_more() const noexcept { return !events_.empty(); }

    /// How many were noted so far, and for how many of them there was a frame: whatever else was
    /// done after so many waits for them.
    [[nodiscard]] std::size_t noted() const noexcept { return taken_ + events_.size(); }
    [[nodiscard]] std::size_t taken() const noexcept { return taken_; }

private:
    std::deque<PointerEvent> events_;
    std::size_t taken_ = 0;
    std::array<bool, pointer_buttons> is_down_{};
    std::optional<PointerEvent> last_press_;
};

}  // namespace backrow::window
