#pragma once

// What a camera sees of one level: its frame and its distances cut by a horizontal plane.
//
// A point at axial d and slope t to the right of the axis lies on the level H where
//
//     lens + d·(forward + t·right + s·up),   s = ((H − height of the lens)/d − forward·y)/(up·y)
//
// so for each t the points lie on a straight line, and for each d too.

#include "plan/drawings/drawing.h"

#include "scene/camera_view.h"

#include <optional>

namespace backrow::plan {

/// Axial distances, metres.
struct AxialRange {
    double near_m;
    double far_m;
};

struct LevelCut {
    scene::CameraView view;
    double level_m = 0;     ///< Above the ground at the mark.
    double half_slope = 0;  ///< t at the right edge of the frame.
    AxialRange frame{};     ///< Where this level lies between top and bottom of the frame.

    [[nodiscard]] DrawingPoint point(double slope, double axial_m) const;
    [[nodiscard]] double image_height(double slope, double axial_m) const;
};

/// end_m    axial distance at which a frame that goes on for ever is cut off, > 0
/// returns  nothing where the frame shows nothing of the level before that, or the camera looks all
///          but straight up or down
[[nodiscard]] std::optional<LevelCut> level_cut(const scene::CameraView& view, double level_m,
                                                double end_m);

}  // namespace backrow::plan
