#include "rehearsal/hands/wheel.h"

namespace backrow::rehearsal {
namespace {

constexpr double notch_of_distance_m = 0.10;
constexpr double notch_of_focal_length_mm = 1;
constexpr double notch_of_focus_m = 0.02;
constexpr double notch_of_turn_deg = 5;
constexpr double notch_of_lean_m = 0.01;

int way(const Notch& notch) {
    return notch.is_forward ? 1 : -1;
}

}  // namespace

Change turn_wheel_over_picture(const scene::Scene& scene, const scene::CameraView& view,
                               const Notch& notch) {
    const scene::Camera& camera = scene.camera;
    if (notch.with_shift)
        return carry_camera(scene, camera.lens_to_mark_m - way(notch) * notch_of_distance_m,
                            camera.across_m);
    if (notch.with_ctrl)
        return zoom(camera.focal_length_mm + way(notch) * notch_of_focal_length_mm);
    if (notch.with_alt)
        return focus_at(view.lens.focus_m + way(notch) * notch_of_focus_m);
    return stop_down(scene, way(notch));
}

Change turn_wheel_over_person(const scene::Scene& scene, std::size_t person, const Notch& notch) {
    const figures::Pose& pose = scene.people[person].pose;
    if (notch.with_ctrl)
        return turn(scene, person, pose.turn_deg + way(notch) * notch_of_turn_deg);
    if (notch.with_shift)
        return lean(scene, person, pose.lean_m + way(notch) * notch_of_lean_m);
    return {};
}

}  // namespace backrow::rehearsal
