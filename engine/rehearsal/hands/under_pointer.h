#pragma once

// What a pointer is over on a drawing: something to grip, and what the camera makes of the place.

#include "plan/drawings/from_above.h"
#include "plan/drawings/from_the_side.h"

#include <cstddef>
#include <optional>

namespace backrow::rehearsal {

/// Of everybody whose head or shoulders are within reach, the one whose head is nearest; nothing
/// where there is nobody.
[[nodiscard]] std::optional<std::size_t> person_at(const plan::FromAbove& drawing,
                                                   const plan::DrawingPoint& point, double reach_m);

/// In profile, the head whose middle is nearest; nothing where none is within reach.
[[nodiscard]] std::optional<std::size_t> head_at(const plan::FromTheSide& drawing,
                                                 const plan::DrawingPoint& point, double reach_m);

[[nodiscard]] bool is_on_lens(const plan::FromAbove& drawing, const plan::DrawingPoint& point,
                              double reach_m);
/// The line in which the plane of focus is drawn.
[[nodiscard]] bool is_on_plane_of_focus(const plan::FromAbove& drawing,
                                        const plan::DrawingPoint& point, double reach_m);

[[nodiscard]] bool is_on_sun(const plan::FromAbove& drawing, const plan::DrawingPoint& point,
                             double reach_m);
[[nodiscard]] bool is_on_window(const plan::FromAbove& drawing, const plan::DrawingPoint& point,
                                double reach_m);
/// The model that was named last of those that cover the point. One in which people stand, such as
/// a scan of the place, is no thing to be moved.
[[nodiscard]] std::optional<std::size_t> model_at(const plan::FromAbove& drawing,
                                                  const plan::DrawingPoint& point);
/// The nearest backdrop within reach.
[[nodiscard]] std::optional<std::size_t>
backdrop_at(const plan::FromAbove& drawing, const plan::DrawingPoint& point, double reach_m);

/// A place at the level of the drawing, as the camera sees it.
struct PlaceSeen {
    double across_m = 0;
    double back_m = 0;
    double range_m = 0;  ///< Straight from the lens.
    double axial_m = 0;  ///< Along its axis; everything below needs this > 0.
    bool in_frame = false;
    double frame_width_m = 0;  ///< As far from the lens as this, along the axis.
    double frame_height_m = 0;
    double blur_px = 0;  ///< Of a face here, camera pixels.
    optics::Grade grade = optics::Grade::lost;
    std::optional<optics::AxialRange> crisp;  ///< Axial, in this part of the picture.
    std::optional<optics::AxialRange> fine;
};

[[nodiscard]] PlaceSeen place_seen(const scene::Scene& scene, const scene::CameraView& view,
                                   double level_m, const plan::DrawingPoint& point);

}  // namespace backrow::rehearsal
