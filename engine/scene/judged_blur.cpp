#include "scene/judged_blur.h"

#include "optics/contrast/diffraction.h"

#include <algorithm>
#include <cmath>
#include <variant>

namespace backrow::scene {
namespace {

double sensor_long_side_mm(const CameraView& view) {
    return std::max(view.sensor_width_mm, view.sensor_height_mm);
}

}  // namespace

optics::BlurUnit blur_unit(const Viewing& viewing) noexcept {
    return std::holds_alternative<optics::PrintViewing>(viewing) ? optics::BlurUnit::arcmin
                                                                 : optics::BlurUnit::px;
}

double diffraction_mm(const Scene& scene, const CameraView& view) {
    return scene.judge == Judge::sharpness ? optics::diffraction_disc_mm(view.focused()) : 0;
}

optics::JudgedBlur judged_blur(double blur_mm, const Scene& scene, const CameraView& view) {
    const double all_mm = optics::with_diffraction_mm(blur_mm, diffraction_mm(scene, view));
    const auto* print = std::get_if<optics::PrintViewing>(&scene.viewing);
    return {.amount = print ? optics::view_arcmin(all_mm, sensor_long_side_mm(view), *print)
                            : all_mm * view.px_per_mm(),
            .unit = blur_unit(scene.viewing)};
}

double grade_limit_mm(optics::Grade grade, const Viewing& viewing,
                      const CameraView& view) noexcept {
    const double limit = optics::limit_of(grade, blur_unit(viewing));
    const auto* print = std::get_if<optics::PrintViewing>(&viewing);
    if (print && std::isfinite(limit))
        return optics::blur_mm_from_view_arcmin(limit, sensor_long_side_mm(view), *print);
    return print ? limit : limit / view.px_per_mm();
}

std::optional<double> blur_limit_mm(optics::Grade grade, const Scene& scene,
                                    const CameraView& view) {
    return optics::room_beside_diffraction_mm(grade_limit_mm(grade, scene.viewing, view),
                                              diffraction_mm(scene, view));
}

}  // namespace backrow::scene
