#include "plan/standpoint.h"

#include "plan/background.h"
#include "scene/clearance.h"
#include "scene/scene_keys.h"

#include "optics/lens_profile.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

namespace backrow::plan {
namespace {

scene::Scene moved(scene::Scene scene, double lens_to_mark_m) {
    scene.camera.lens_to_mark_m = lens_to_mark_m;
    return scene;
}

EyeInView nearer_eye(const scene::CameraView& view, const scene::Person& person) {
    const scene::Seen seen = project(view, nearer_eye_m(view, person));
    return {.axial_m = seen.axial_m, .image_height = seen.image_height};
}

using Solids = std::vector<figures::Capsule>;

bool can_stand(const scene::CameraView& view, const std::vector<Solids>& people) {
    // Straight above or below its aim the camera has no direction.
    return std::isfinite(view.forward.x) && mm_from_m(view.focus_m) > view.focal_length_mm &&
           std::ranges::all_of(people, [&](const Solids& person) {
               return scene::nearest_part_m(view, person) >= scene::nearest_person_m;
           });
}

double mean_of_one_over_axial(const std::vector<EyeInView>& eyes) {
    double sum = 0;
    for (const EyeInView& eye : eyes)
        sum += 1 / eye.axial_m;
    return sum / static_cast<double>(eyes.size());
}

}  // namespace

scene::Scene bound_to_places(scene::Scene scene) {
    const scene::CameraView view = camera_view(scene);
    scene.camera.aim = scene::mark_from_engine(aim_point_m(scene));
    if (std::holds_alternative<scene::FocusAtDistance>(scene.focus))
        scene.focus = scene::mark_from_engine(view.position_m + view.focus_m * view.forward);
    return scene;
}

Standpoint standpoint(scene::Scene bound, double lens_to_mark_m) {
    const scene::Scene scene = moved(std::move(bound), lens_to_mark_m);
    Standpoint from{.lens_to_mark_m = lens_to_mark_m, .view = camera_view(scene), .eyes = {}};
    from.eyes.reserve(scene.people.size());
    for (const scene::Person& person : scene.people)
        from.eyes.push_back(nearer_eye(from.view, person));
    from.background_axial_m = background(scene, from.view).axial_m;
    return from;
}

double nearest_standpoint_m(const scene::Scene& bound, double from_m, double to_m) {
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

WorstFace worst_face(const Standpoint& from, double f_number) {
    WorstFace worst;
    for (std::size_t i = 0; i < from.eyes.size(); ++i) {
        const double blur_mm = optics::spot_diameter_mm(
            from.view.profile, from.view.focal_length_mm, f_number, from.view.focus_m,
            from.eyes[i].axial_m, from.eyes[i].image_height);
        if (blur_mm > worst.blur_mm)
            worst = {.person = i, .blur_mm = blur_mm};
    }
    return worst;
}

double background_percent(const Standpoint& from, double f_number) {
    constexpr double on_the_axis = 0;
    constexpr double percent = 100;
    return percent *
           optics::spot_diameter_mm(from.view.profile, from.view.focal_length_mm, f_number,
                                    from.view.focus_m, from.background_axial_m, on_the_axis) /
           from.view.sensor_height_mm;
}

double face_scale_mm_per_m(const Standpoint& from) {
    return from.view.image_distance_mm() * mean_of_one_over_axial(from.eyes);
}

double focal_length_for_scale_mm(const Standpoint& from, double scale_mm_per_m) {
    const double v_mm = scale_mm_per_m / mean_of_one_over_axial(from.eyes);
    const double s_mm = mm_from_m(from.view.focus_m);
    return v_mm * s_mm / (s_mm + v_mm);
}

scene::Scene with_lens(scene::Scene scene, double focal_length_mm) {
    if (focal_length_mm != scene.camera.focal_length_mm)
        scene.lens.profile.reset();
    scene.camera.focal_length_mm = focal_length_mm;
    return scene;
}

// By halves: the focal length that frames as wanted grows with distance.
std::optional<double> framing_distance_m(const scene::Scene& bound, double focal_length_mm,
                                         double scale_mm_per_m) {
    if (focal_length_mm == bound.camera.focal_length_mm)
        return bound.camera.lens_to_mark_m;
    const auto framing_mm = [&](double lens_to_mark_m) {
        return focal_length_for_scale_mm(standpoint(bound, lens_to_mark_m), scale_mm_per_m);
    };
    double near_m =
        nearest_standpoint_m(bound, bound.camera.lens_to_mark_m, scene::keys::lens_to_mark_m.least);
    double far_m = scene::keys::farthest_m;
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
