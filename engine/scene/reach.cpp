#include "scene/reach.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::scene {
namespace {

// A corner of the frame that looks past the end of the world still asks for this much and no more.
constexpr double longest_ray_in_distances = 6;

}  // namespace

setting::Reach reach_of(const CameraView& view, double back_m) {
    const double distance_m = std::max(view.position_m.z + back_m, 0.1);
    const glm::dvec3 middle = view.forward * view.image_distance_mm();
    setting::Reach reach{.left_m = view.position_m.x,
                         .right_m = view.position_m.x,
                         .top_m = 0,
                         .lens_to_backdrop_m = distance_m};
    double blur_m = 0;
    for (const double across : {-0.5, 0.5})
        for (const double up : {-0.5, 0.5}) {
            const glm::dvec3 ray =
                glm::normalize(middle + view.right * (across * view.sensor_width_mm) +
                               view.up * (up * view.sensor_height_mm));
            const double range_m = ray.z < -1 / longest_ray_in_distances
                                       ? distance_m / -ray.z
                                       : distance_m * longest_ray_in_distances;
            const glm::dvec3 met = view.position_m + ray * range_m;
            reach.left_m = std::min(reach.left_m, met.x);
            reach.right_m = std::max(reach.right_m, met.x);
            reach.top_m = std::max(reach.top_m, met.y);
            const double axial = range_m * glm::dot(ray, view.forward);
            const double opening_m = m_from_mm(view.lens.focal_length_mm / view.lens.f_number);
            blur_m = std::max(blur_m, 0.5 * opening_m * std::abs(axial - view.lens.focus_m) /
                                          view.lens.focus_m);
        }
    reach.left_m -= blur_m;
    reach.right_m += blur_m;
    reach.top_m += blur_m;
    return reach;
}

setting::Reach reach_of(std::span<const CameraView> views, double back_m) {
    setting::Reach reach = reach_of(views.front(), back_m);
    for (const CameraView& view : views.subspan(1)) {
        const setting::Reach other = reach_of(view, back_m);
        reach.left_m = std::min(reach.left_m, other.left_m);
        reach.right_m = std::max(reach.right_m, other.right_m);
        reach.top_m = std::max(reach.top_m, other.top_m);
        reach.lens_to_backdrop_m = std::min(reach.lens_to_backdrop_m, other.lens_to_backdrop_m);
    }
    return reach;
}

bool covers(const setting::Reach& made, const setting::Reach& wanted) {
    return made.left_m <= wanted.left_m && made.right_m >= wanted.right_m &&
           made.top_m >= wanted.top_m;
}

}  // namespace backrow::scene
