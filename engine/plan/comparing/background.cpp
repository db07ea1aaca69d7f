#include "plan/comparing/background.h"

#include "plan/faces/head_in_picture.h"

#include "optics/blur/blur_circle.h"

#include <algorithm>
#include <limits>

namespace backrow::plan {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

double farthest_eye_back_m(const std::vector<scene::Person>& people) {
    double farthest = -infinity;
    for (const scene::Person& person : people) {
        const figures::ReferencePoints points = scene::reference_points(person);
        for (const glm::dvec3& eye_m : {points.left_eye_m, points.right_eye_m})
            farthest = std::max(farthest, scene::mark_from_engine(eye_m).back_m);
    }
    return farthest;
}

// A backdrop is the plane z = −back_m, and the axis leaves the lens at position + t·forward.
double axial_of_plane_m(const scene::CameraView& view, double back_m) {
    const double axial_m = (-back_m - view.position_m.z) / view.forward.z;
    return axial_m > 0 ? axial_m : infinity;
}

double mean_face_height_mm(const scene::Scene& scene, const scene::CameraView& view) {
    double sum_mm = 0;
    int faces = 0;
    for (const scene::Person& person : scene.people) {
        const figures::ReferencePoints points = scene::reference_points(person);
        if (!whole_head_in_picture(view, points))
            continue;
        sum_mm += face_height_mm(view, points);
        ++faces;
    }
    return faces > 0 ? sum_mm / faces : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace

double background_axial_m(const scene::Scene& scene, const scene::CameraView& view) {
    const double eyes_back_m = farthest_eye_back_m(scene.people);
    double nearest = infinity;
    for (const setting::Backdrop& backdrop : scene.setting.backdrops)
        if (backdrop.back_m > eyes_back_m)
            nearest = std::min(nearest, axial_of_plane_m(view, backdrop.back_m));
    return nearest;
}

Background background(const scene::Scene& scene, const scene::CameraView& view) {
    Background background{.axial_m = background_axial_m(scene, view)};
    background.blur_mm = optics::blur_diameter_mm(view.focused(), background.axial_m);
    background.percent_of_height = 100 * background.blur_mm / view.sensor_height_mm;
    background.percent_of_head = 100 * background.blur_mm / mean_face_height_mm(scene, view);
    return background;
}

}  // namespace backrow::plan
