#include "scene/judged_blur.h"

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

optics::JudgedBlur judged_blur(double blur_mm, const Viewing& viewing,
                               const CameraView& view) noexcept {
    const auto* print = std::get_if<optics::PrintViewing>(&viewing);
    return {.amount = print ? optics::view_arcmin(blur_mm, sensor_long_side_mm(view), *print)
                            : blur_mm * view.px_per_mm(),
            .unit = blur_unit(viewing)};
}

double blur_limit_mm(optics::Grade grade, const Viewing& viewing, const CameraView& view) noexcept {
    const double limit = optics::limit_of(grade, blur_unit(viewing));
    const auto* print = std::get_if<optics::PrintViewing>(&viewing);
    if (print && std::isfinite(limit))
        return optics::blur_mm_from_view_arcmin(limit, sensor_long_side_mm(view), *print);
    return print ? limit : limit / view.px_per_mm();
}

}  // namespace backrow::scene
