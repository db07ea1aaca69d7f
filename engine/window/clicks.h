#pragma once

// What the buttons of the pointer did, a press or a letting go at a time. The toolkit looks at them
// once a frame; on a machine that draws slowly two clicks would be one, and what was clicked first
// would be looked for where the pointer is now.

#include <array>
#include <cstddef>
#include <deque>
#include <optional>

namespace backrow::window {

inline constexpr std::size_t pointer_buttons = 5;

struct ButtonEvent {
    std::size_t button = 0;
    bool is_down = false;
    double at_s = 0;  ///< On any clock.
    float x = 0;      ///< Where the pointer was.
    float y = 0;
};

class Clicks {
public:
    /// Of a button beyond the last nothing is noted.
    void note(const ButtonEvent& event);

    /// The buttons as a frame is to see them: of all that happened since, the first.
    struct Frame {
        std::array<bool, pointer_buttons> is_down{};
        std::optional<ButtonEvent> event;  ///< That this frame is about.
        bool is_second = false;            ///< It makes two clicks of one.
    };
    [[nodiscard]] Frame next_frame();
    /// There is more to see in further frames.
    [[nodiscard]] bool has_more() const noexcept { return !events_.empty(); }

private:
    std::deque<ButtonEvent> events_;
    std::array<bool, pointer_buttons> is_down_{};
    std::optional<ButtonEvent> last_press_;
};

}  // namespace backrow::window
