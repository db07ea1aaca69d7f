#pragma once

// The work of the darkroom, in short steps: pictures of the last order, each better than the one
// before, until nothing is left to do. Belongs to one thread.

#include "window/pictures/pace.h"
#include "window/pictures/prints.h"

#include "render/studio/live_studio.h"
#include "render/studio/one_moves.h"
#include "scene/camera_view.h"

#include <chrono>
#include <cstddef>
#include <deque>
#include <functional>
#include <optional>

namespace backrow::window {

/// How the printer speaks with those who wait for it.
struct Counter {
    std::function<bool()> is_wanted_elsewhere;  ///< Whether another order has come, or the end.
    std::function<bool()> is_closing;
    std::function<void(const std::function<void(Prints&)>&)> publish;
};

/// When the window's picture is good enough (render::LensSamples): faces stand beside it at 100 %,
/// and a small picture changes more from one number of points to the next.
inline constexpr double enough_db = 42;

class Printer {
public:
    Printer(render::LiveStudio studio, Counter counter);

    void begin(Order order);
    /// One piece of work, short but for the light. Whether there is more. Where memory has run out
    /// there is not, until the next order.
    [[nodiscard]] bool step();
    [[nodiscard]] bool owes_quick_picture() const noexcept { return quick_due_; }

private:
    using Clock = std::chrono::steady_clock;

    void all_faces_due();
    void keep_order_of_faces();
    [[nodiscard]] render::LensSamples few_samples(int passes) const;
    [[nodiscard]] render::Studio studio() const;
    [[nodiscard]] render::Accumulation exposure(const render::CropRect& part,
                                                const render::LensSamples& samples) const;
    [[nodiscard]] Print print_of(const render::Accumulation& exposed,
                                 const render::CropRect& part) const;
    void publish_quick(Print print);
    bool quick_picture();
    bool picture_of_mover();
    [[nodiscard]] std::optional<render::CropRect> face_part(std::size_t face) const;
    void publish_face(std::size_t face, Print print);
    bool quick_face();
    bool finish_face();
    [[nodiscard]] const render::LensSamples& samples_of_picture();
    void forget_picture();
    bool refine_picture();
    bool measure_face();
    bool work();
    void complain(const std::string& line);
    bool build(render::LightCare care);

    render::LiveStudio studio_;
    Counter counter_;
    Pace pace_;

    Order order_;
    scene::CameraView view_;
    double gain_stops_ = 0;
    bool quick_due_ = false;
    bool has_failed_ = false;  ///< The complaint goes with the next picture.
    std::optional<render::Accumulation> picture_;
    std::optional<render::LensSamples> samples_of_picture_;
    std::optional<std::size_t> mover_;           ///< Who alone moves, while a hand moves them …
    std::optional<render::OneMoves> one_moves_;  ///< … and all the rest.
    int mover_passes_ = 1;
    Clock::time_point begun_;  ///< With the order.
    Clock::time_point last_print_;
    std::deque<std::size_t> quick_faces_;
    std::deque<std::size_t> faces_to_finish_;
    std::deque<std::size_t> to_measure_;
    int refused_edition_ = -1;
};

}  // namespace backrow::window
