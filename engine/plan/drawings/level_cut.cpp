#include "plan/drawings/level_cut.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace backrow::plan {
namespace {

/// Up·y of a camera that looks up or down within three degrees of the plumb line.
constexpr double least_uprightness = 0.05;

/// s of level_cut.h.
double up_slope(const scene::CameraView& view, double level_m, double axial_m) {
    return ((level_m - view.position_m.y) / axial_m - view.forward.y) / view.up.y;
}

/// Where rise/d lies between the rises of the bottom and the top of the frame for each metre of
/// axial distance.
AxialRange between(double rise_m, double bottom, double top) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    if (rise_m < 0)
        return between(-rise_m, -top, -bottom);
    if (rise_m == 0)
        return bottom <= 0 && top >= 0 ? AxialRange{0, infinity} : AxialRange{infinity, 0};
    return {top > 0 ? rise_m / top : infinity, bottom > 0 ? rise_m / bottom : infinity};
}

}  // namespace

DrawingPoint LevelCut::point(double slope, double axial_m) const {
    // With s of level_cut.h put in, so that it stands at d = 0 too.
    const double rise = (level_m - view.position_m.y - axial_m * view.forward.y) / view.up.y;
    const glm::dvec3 point_m =
        view.position_m + axial_m * (view.forward + slope * view.right) + rise * view.up;
    const scene::FromMark place = scene::mark_from_engine(point_m);
    return {.x_m = place.across_m, .y_m = place.back_m};
}

double LevelCut::image_height(double slope, double axial_m) const {
    return 2 * view.image_distance_mm() * std::hypot(slope, up_slope(view, level_m, axial_m)) /
           std::hypot(view.sensor_width_mm, view.sensor_height_mm);
}

std::optional<LevelCut> level_cut(const scene::CameraView& view, double level_m, double end_m) {
    if (view.up.y < least_uprightness)
        return std::nullopt;
    const double v_mm = view.image_distance_mm();
    const double half_up = view.sensor_height_mm / (2 * v_mm);
    AxialRange frame = between(level_m - view.position_m.y, view.forward.y - half_up * view.up.y,
                               view.forward.y + half_up * view.up.y);
    frame.far_m = std::min(frame.far_m, end_m);
    if (frame.near_m >= frame.far_m)
        return std::nullopt;
    return LevelCut{.view = view,
                    .level_m = level_m,
                    .half_slope = view.sensor_width_mm / (2 * v_mm),
                    .frame = frame};
}

}  // namespace backrow::plan
