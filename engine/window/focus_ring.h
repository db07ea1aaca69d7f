#pragma once

// Tab goes once round everything that can be worked on what is in front, in the order in which it
// is drawn: each button, list, tick and field, also those that have to be scrolled to.

#include <cstddef>
#include <optional>

namespace backrow::window {

class FocusRing {
public:
    /// After the keys have been heard, before anything is drawn.
    void begin_frame();
    /// Between the two is drawn what belongs to the ring.
    void open() noexcept { is_open_ = true; }
    void close() noexcept { is_open_ = false; }
    /// What the toolkit drew last is a stop.
    void note_last();

    /// Tab: to the next stop, after the last to the first; where nothing has the keys, to an end.
    ///
    /// way  1, or −1 with Shift
    void step(int way);

private:
    bool is_open_ = false;
    std::size_t drawn_ = 0;                ///< In this frame; between frames, in the last one.
    std::optional<std::size_t> has_keys_;  ///< Likewise.
    std::optional<std::size_t> next_;      ///< Gets the keys as soon as it is drawn …
    bool is_given_ = false;                ///< … which it was in this frame.
};

/// Takes the keys from the field that is typed into, as a click elsewhere does.
void leave_field();

}  // namespace backrow::window
