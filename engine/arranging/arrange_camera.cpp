#include "arranging/arrange_camera.h"

#include "arranging/centimetres.h"

#include "scene/camera_view.h"
#include "scene/limits.h"

#include "base/units.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace backrow::arranging {
namespace {

constexpr double nearest_m = 0.5;  // of anybody's body, along the axis
constexpr double distance_step_m = 0.05;

/// The corners of boxes round all solids, and crowns: what must be in the frame.
std::vector<glm::dvec3> silhouette(const std::vector<scene::Person>& people) {
    std::vector<glm::dvec3> points;
    for (const scene::Person& person : people) {
        points.push_back(reference_points(person).crown_m);
        points.push_back(scene::engine_from_mark(person.place));
        for (const figures::Capsule& solid : solids(person))
            for (const glm::dvec3& end : {solid.from_m, solid.to_m})
                for (const double side : {-1.0, 1.0})
                    points.push_back(end + glm::dvec3{side * solid.radius_m, 0, 0});
    }
    return points;
}

double mean_eye_height_m(const std::vector<scene::Person>& people) {
    double sum_m = 0;
    for (const scene::Person& person : people) {
        const figures::ReferencePoints points = reference_points(person);
        sum_m += (points.left_eye_m.y + points.right_eye_m.y) / 2;
    }
    return sum_m / static_cast<double>(people.size());
}

bool fits(const scene::Scene& empty, const std::vector<glm::dvec3>& points, double fill) {
    const scene::CameraView view = camera_view(empty);
    return std::ranges::all_of(points, [&](const glm::dvec3& point_m) {
        const scene::Seen seen = project(view, point_m);
        return seen.axial_m > nearest_m &&
               std::abs(seen.at_px.x / view.width_px - 0.5) <= fill / 2 &&
               std::abs(seen.at_px.y / view.height_px - 0.5) <= fill / 2;
    });
}

}  // namespace

GroupSize size_of(const scene::Scene& scene) {
    constexpr double far_away = std::numeric_limits<double>::infinity();
    glm::dvec3 low{far_away};
    glm::dvec3 high{-far_away};
    for (const glm::dvec3& point_m : silhouette(scene.people)) {
        low = glm::min(low, point_m);
        high = glm::max(high, point_m);
    }
    return {high.x - low.x, high.y - low.y};
}

bool frame_group(scene::Scene& scene, double fill) {
    const std::vector<glm::dvec3> points = silhouette(scene.people);
    const glm::dvec3 middle_m = aim_point_m(scene);
    scene::Scene empty;  // the same camera without the people, whom the view would weigh each time
    empty.camera = scene.camera;
    empty.camera.aim = scene::mark_from_engine(middle_m);
    empty.camera.across_m = to_centimetre(middle_m.x);
    empty.camera.height_m =
        to_centimetre(std::min(mean_eye_height_m(scene.people), highest_lens_m));
    const auto fits_from = [&](int steps) {
        empty.camera.lens_to_mark_m = steps * distance_step_m;
        empty.focus = scene::FocusAtDistance{
            std::max(empty.camera.lens_to_mark_m, 2 * m_from_mm(empty.camera.focal_length_mm))};
        return fits(empty, points, fill);
    };
    int fails = 0;
    int holds = static_cast<int>(scene::limits::farthest_m / distance_step_m);
    if (!fits_from(holds))
        return false;
    while (holds - fails > 1) {
        const int middle = fails + (holds - fails) / 2;
        (fits_from(middle) ? holds : fails) = middle;
    }
    scene.camera.across_m = empty.camera.across_m;
    scene.camera.height_m = empty.camera.height_m;
    // Rounded as it will be written, so that the file says the same number.
    scene.camera.lens_to_mark_m = std::round(holds * distance_step_m * 100) / 100;
    return true;
}

double eye_depth_m(const scene::Scene& scene) {
    const scene::CameraView view = camera_view(scene);
    double nearest = std::numeric_limits<double>::infinity();
    double farthest = -nearest;
    for (const scene::Person& person : scene.people) {
        const double eye_m = axial_m(view, nearer_eye_m(view, person));
        nearest = std::min(nearest, eye_m);
        farthest = std::max(farthest, eye_m);
    }
    return farthest - nearest;
}

}  // namespace backrow::arranging
