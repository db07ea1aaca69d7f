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

}  // namespace

double blur_limit_mm(optics::Grade grade, const Viewing& viewing, const CameraView& view) {
    if (grade == optics::Grade::lost)
        return std::numeric_limits<double>::infinity();
    const Limit limit = limit_of(grade);
    if (const auto* print = std::get_if<optics::PrintViewing>(&viewing))
        return optics::blur_mm_from_view_arcmin(
            limit.arcmin, std::max(view.sensor_width_mm, view.sensor_height_mm), *print);
    return limit.px / view.px_per_mm();
}

}  // namespace backrow::scene
