#include "scene/grade_limit.h"

#include <algorithm>
#include <limits>
#include <variant>

namespace backrow::scene {
namespace {

struct Limit {
    double arcmin;
    double px;
};

Limit limit_of(optics::Grade grade) {
    switch (grade) {
    case optics::Grade::crisp:
        return {optics::crisp_limit_arcmin, optics::crisp_limit_px};
    case optics::Grade::fine:
        return {optics::fine_limit_arcmin, optics::fine_limit_px};
    case optics::Grade::soft:
    case optics::Grade::lost:
        break;
    }
    return {optics::soft_limit_arcmin, optics::soft_limit_px};
}

double sensor_long_side_mm(const scene::CameraView& view) {
    return std::max(view.sensor_width_mm, view.sensor_height_mm);
}

}  // namespace

double blur_limit_mm(optics::Grade grade, const scene::Viewing& viewing,
                     const scene::CameraView& view) {
    if (grade == optics::Grade::lost)
        return std::numeric_limits<double>::infinity();
    const Limit limit = limit_of(grade);
    if (const auto* print = std::get_if<optics::PrintViewing>(&viewing))
        return optics::blur_mm_from_view_arcmin(limit.arcmin, sensor_long_side_mm(view), *print);
    return limit.px / view.px_per_mm();
}

double judged_blur(double blur_mm, const scene::Viewing& viewing, const scene::CameraView& view) {
    if (const auto* print = std::get_if<optics::PrintViewing>(&viewing))
        return optics::view_arcmin(blur_mm, sensor_long_side_mm(view), *print);
    return blur_mm * view.px_per_mm();
}

double judged_limit(optics::Grade grade, const scene::Viewing& viewing) {
    if (grade == optics::Grade::lost)
        return std::numeric_limits<double>::infinity();
    const Limit limit = limit_of(grade);
    return std::holds_alternative<optics::PrintViewing>(viewing) ? limit.arcmin : limit.px;
}

optics::Grade grade_of(double judged, const scene::Viewing& viewing) {
    return std::holds_alternative<optics::PrintViewing>(viewing) ? optics::grade_from_arcmin(judged)
                                                                 : optics::grade_from_px(judged);
}

}  // namespace backrow::scene
