#pragma once

// What a pointer is over on the drawing from above: something to grip, and what the camera
// makes of the place.

#include "rehearsal/from_above.h"

#include <cstddef>
#include <optional>
#include <variant>

namespace backrow::rehearsal {

struct PersonGrip {
    std::size_t person;  ///< Index in Scene::people.
};
struct LensGrip {};
struct FocusGrip {};  ///< The line in which the plane of focus is drawn.
using Grip = std::variant<std::monostate, PersonGrip, LensGrip, FocusGrip>;

/// Of everybody whose head or shoulders are within reach, the one whose head is nearest; nothing
/// where there is nobody.
[[nodiscard]] std::optional<std::size_t> person_at(const FromAbove& drawing,
                                                   const DrawingPoint& point, double reach_m);

/// What a hand grips here: somebody before the lens, the lens before the plane of focus.
[[nodiscard]] Grip grip_at(const FromAbove& drawing, const DrawingPoint& point, double reach_m);

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
                                   double level_m, const DrawingPoint& point);

}  // namespace backrow::rehearsal
