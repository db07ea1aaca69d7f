#include "plan/comparing/viewpoint.h"

#include "plan/comparing/background.h"
#include "scene/clearance.h"
#include "scene/limits.h"

#include "optics/blur/blur_circle.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>
#include <variant>

namespace backrow::plan {
namespace {

scene::Scene moved(scene::Scene scene, double lens_to_mark_m) {
    scene.camera.lens_to_mark_m = lens_to_mark_m;
    return scene;
}

optics::PointInView point_in_view(const scene::CameraView& view, const glm::dvec3& point_m) {
    const glm::dvec3 from_lens_m = point_m - view.position_m;
    const double axial = glm::dot(from_lens_m, view.forward);
    return {.axial_m = axial,
            .field_tangent = glm::length(from_lens_m - axial * view.forward) / axial};
}

using Solids = std::vector<figures::Capsule>;

bool can_stand(const scene::CameraView& view, const std::vector<Solids>& people) {
    // Straight above or below its aim the camera has no direction.
    return std::isfinite(view.forward.x) &&
           mm_from_m(view.lens.focus_m) > view.lens.focal_length_mm &&
           std::ranges::all_of(people, [&](const Solids& person) {
               return scene::nearest_part_m(view, person) >= scene::nearest_person_m;
           });
}

double mean_of_one_over_axial(const std::vector<optics::PointInView>& eyes) {
    double sum = 0;
    for (const optics::PointInView& eye : eyes)
        sum += 1 / eye.axial_m;
    return sum / static_cast<double>(eyes.size());
}

}  // namespace

Viewpoint viewpoint(scene::Scene scene) {
    Viewpoint at{.scene = std::move(scene), .view = {}, .eyes = {}};
    at.view = camera_view(at.scene);
    at.eyes.reserve(at.scene.people.size());
    for (const scene::Person& person : at.scene.people)
        at.eyes.push_back(point_in_view(at.view, nearer_eye_m(at.view, person)));
    at.background_axial_m = background_axial_m(at.scene, at.view);
    return at;
}

scene::Scene bound_to_places(scene::Scene scene) {
    if (std::holds_alternative<scene::FocusAtDistance>(scene.focus)) {
        const scene::CameraView view = camera_view(scene);
        scene.focus = scene::mark_from_engine(view.position_m + view.lens.focus_m * view.forward);
    }
    return scene;
}

Viewpoint viewpoint_from(scene::Scene bound, double lens_to_mark_m) {
    return viewpoint(moved(std::move(bound), lens_to_mark_m));
}

double nearest_viewpoint_m(const scene::Scene& bound, double from_m, double to_m) {
    std::vector<Solids> people;
    for (const scene::Person& person : bound.people)
        people.push_back(scene::solids(person));
    scene::Scene trial = bound;
    const auto can_stand_at = [&](double lens_to_mark_m) {
        trial.camera.lens_to_mark_m = lens_to_mark_m;
        return can_stand(camera_view(trial), people);
    };
    // In steps first: past the people the camera would turn round and have them before it again.
    constexpr int steps = 100;
    double stands_m = from_m;
    double too_near_m = from_m;
    for (int i = 1; i <= steps && too_near_m == from_m; ++i) {
        const double next_m = from_m + (to_m - from_m) * i / steps;
        (can_stand_at(next_m) ? stands_m : too_near_m) = next_m;
    }
    if (too_near_m == from_m)
        return to_m;
    constexpr double close_enough_m = 0.01;
    while (stands_m - too_near_m > close_enough_m) {
        const double middle_m = 0.5 * (stands_m + too_near_m);
        (can_stand_at(middle_m) ? stands_m : too_near_m) = middle_m;
    }
    return stands_m;
}

MostBlurred most_blurred(const Viewpoint& at, double f_number) {
    const auto lens = at.view.focused().stopped_to(f_number);
    assert(lens);
    MostBlurred worst;
    for (std::size_t i = 0; i < at.eyes.size(); ++i) {
        const optics::PointInView& eye = at.eyes[i];
        const double blur_mm = optics::blur_diameter_mm(
            *lens, eye.axial_m, optics::image_height(*lens, eye.field_tangent));
        if (blur_mm > worst.blur_mm)
            worst = {.person = i, .blur_mm = blur_mm};
    }
    return worst;
}

double background_percent(const Viewpoint& at, double f_number, double focus_m) {
    constexpr double percent = 100;
    const auto stopped = at.view.focused().stopped_to(f_number);
    const auto lens = stopped ? stopped->focused_at(focus_m) : std::nullopt;
    return lens ? percent * optics::blur_diameter_mm(*lens, at.background_axial_m) /
                      at.view.sensor_height_mm
                : std::numeric_limits<double>::quiet_NaN();
}

double face_scale_mm_per_m(const Viewpoint& at) {
    return at.view.image_distance_mm() * mean_of_one_over_axial(at.eyes);
}

double focal_length_for_scale_mm(const Viewpoint& at, double scale_mm_per_m) {
    const double v_mm = scale_mm_per_m / mean_of_one_over_axial(at.eyes);
    const double s_mm = mm_from_m(at.view.lens.focus_m);
    return v_mm * s_mm / (s_mm + v_mm);
}

// By halves: the focal length that frames as wanted grows with distance.
std::optional<double> framing_distance_m(const scene::Scene& bound, double focal_length_mm,
                                         double scale_mm_per_m) {
    if (focal_length_mm == bound.camera.focal_length_mm)
        return bound.camera.lens_to_mark_m;
    const auto framing_mm = [&](double lens_to_mark_m) {
        return focal_length_for_scale_mm(viewpoint_from(bound, lens_to_mark_m), scale_mm_per_m);
    };
    double near_m = nearest_viewpoint_m(bound, bound.camera.lens_to_mark_m,
                                        scene::limits::lens_to_mark_m.least);
    double far_m = scene::limits::farthest_m;
    if (framing_mm(near_m) > focal_length_mm || framing_mm(far_m) < focal_length_mm)
        return std::nullopt;
    constexpr double close_enough_m = 0.0001;
    while (far_m - near_m > close_enough_m) {
        const double middle_m = 0.5 * (near_m + far_m);
        (framing_mm(middle_m) < focal_length_mm ? near_m : far_m) = middle_m;
    }
    return 0.5 * (near_m + far_m);
}

}  // namespace backrow::plan
