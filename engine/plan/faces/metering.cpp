#include "plan/faces/metering.h"

#include "plan/odds/image_motion.h"
#include "scene/judged_blur.h"

#include "optics/exposure/exposure.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace backrow::plan {
namespace {

double motion_limit_s(const scene::Scene& scene, const scene::CameraView& view) {
    const double limit_mm = grade_limit_mm(optics::Grade::fine, scene.viewing, view);
    double longest_s = std::numeric_limits<double>::infinity();
    for (const scene::Person& person : scene.people) {
        const glm::dvec3 eye_m = nearer_eye_m(view, person);
        if (axial_m(view, eye_m) <= 0)
            continue;
        const ImageMotion walk = image_motion(view, eye_m, walk_mps(person));
        longest_s =
            std::min(longest_s, optics::motion_limit_s(walk.magnification,
                                                       std::max(walk.speed_mps, standing_still_mps),
                                                       limit_mm));
    }
    return longest_s;
}

}  // namespace

Metering metering(const scene::Scene& scene, const scene::CameraView& view) {
    const optics::ExposureSetting set = exposure_setting(scene.camera);
    const double f_number = view.lens.f_number;
    return {.ev100 =
                optics::ev100({.f_number = f_number, .shutter_s = set.shutter_s, .iso = set.iso}) +
                set.filter_stops,
            .scene_ev100 = scene.light.scene_ev100,
            .stops_over = optics::stops_over(set, f_number, scene.light.scene_ev100),
            .effective_f_number = optics::effective_f_number(view.focused()),
            .handheld_limit_s = optics::handheld_limit_s(
                view.lens.focal_length_mm, std::hypot(view.sensor_width_mm, view.sensor_height_mm)),
            .motion_limit_s = motion_limit_s(scene, view)};
}

optics::ExposureSetting exposure_setting(const scene::Camera& camera) noexcept {
    return {.shutter_s = camera.shutter_s, .iso = camera.iso, .filter_stops = camera.filter_stops};
}

optics::ExposureSetting right_exposure(const scene::Scene& now, const scene::CameraView& view,
                                       const Metering& at) noexcept {
    const optics::ExposureSetting set = exposure_setting(now.camera);
    const auto [width_mm, height_mm] = now.camera.sensor_mm;
    const bool on_tripod =
        set.shutter_s >
        optics::handheld_limit_s(now.camera.focal_length_mm, std::hypot(width_mm, height_mm));
    const double steady_s =
        on_tripod ? std::max(at.handheld_limit_s, set.shutter_s) : at.handheld_limit_s;
    return optics::right_exposure(set, view.lens.f_number, now.light.scene_ev100,
                                  std::min(steady_s, at.motion_limit_s));
}

scene::Scene rightly_exposed(scene::Scene scene) {
    const scene::CameraView view = camera_view(scene);
    const optics::ExposureSetting right = right_exposure(scene, view, metering(scene, view));
    scene.camera.shutter_s = right.shutter_s;
    scene.camera.iso = right.iso;
    scene.camera.filter_stops = right.filter_stops;
    return scene;
}

optics::ExposureSetting right_exposure_when_darker(const scene::Scene& scene, double stops) {
    scene::Scene darker = rightly_exposed(scene);
    darker.light.scene_ev100 -= stops;
    return exposure_setting(rightly_exposed(std::move(darker)).camera);
}

double stops_shown(const scene::Camera& camera, const Metering& metering) noexcept {
    return camera.exposure == scene::ShownExposure::as_set ? metering.stops_over : 0.0;
}

}  // namespace backrow::plan
