#include "plan/faces/sharpness.h"

#include "plan/odds/image_motion.h"

#include "optics/blur/motion.h"
#include "optics/blur/viewing.h"
#include "optics/contrast/mtf.h"

#include <algorithm>
#include <variant>

namespace backrow::plan {
namespace {

/// Degrees at the viewer's eye that a millimetre on the sensor fills.
double degrees_a_mm(const optics::PrintViewing& print, const scene::CameraView& view) {
    constexpr double little_mm = 0.01;
    constexpr double arcmin_in_degree = 60;
    const double long_side_mm = std::max(view.sensor_width_mm, view.sensor_height_mm);
    return optics::view_arcmin(little_mm, long_side_mm, print) / arcmin_in_degree / little_mm;
}

}  // namespace

std::vector<std::optional<Sharpness>> sharpness_of_faces(const scene::Scene& scene,
                                                         const scene::CameraView& view) {
    const optics::Lens lens = view.focused();
    const double pixel_mm = 1 / view.px_per_mm();
    const auto* print = std::get_if<optics::PrintViewing>(&scene.viewing);
    std::vector<std::optional<Sharpness>> found;
    for (const scene::Person& person : scene.people) {
        const glm::dvec3 eye_m = nearer_eye_m(view, person);
        const scene::Seen eye = project(view, eye_m);
        if (eye.axial_m <= 0) {
            found.emplace_back();
            continue;
        }
        const ImageMotion motion = image_motion(view, eye_m, walk_mps(person));
        const double streak_mm =
            optics::streak_mm(motion.magnification, motion.speed_mps, scene.camera.shutter_s);
        const optics::MtfCurve curve =
            optics::system_mtf(lens, eye.axial_m, eye.image_height, pixel_mm, streak_mm);
        Sharpness sharpness{.mtf50_cy_per_mm = optics::mtf50_cy_per_mm(curve)};
        sharpness.mtf50_cy_per_px = sharpness.mtf50_cy_per_mm * pixel_mm;
        if (print)
            sharpness.acutance =
                optics::acutance([&, degrees = degrees_a_mm(*print, view)](double cy_per_degree) {
                    return curve.at(cy_per_degree * degrees);
                });
        found.emplace_back(sharpness);
    }
    return found;
}

}  // namespace backrow::plan
