#include "plan/advice/advice_focus.h"

#include "base/units.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace backrow::plan {
namespace {

/// Where eyes hold with the lens focused somewhere.
class EyeZones {
public:
    EyeZones(const optics::Lens& lens, double limit_mm)
        : zones_{lens, limit_mm}, image_height_of_tangent_{image_height(lens, 1)} {}
    [[nodiscard]] std::optional<optics::AxialRange> of(const optics::PointInView& eye) const {
        return zones_.at(image_height_of_tangent_ * eye.field_tangent);
    }

private:
    optics::SharpZones zones_;
    double image_height_of_tangent_;
};

std::optional<EyeZones> zones_with(const optics::Lens& lens, double focus_m, double limit_mm) {
    const auto focused = lens.focused_at(focus_m);
    return focused ? std::optional{EyeZones{*focused, limit_mm}} : std::nullopt;
}

/// What the focus spans of all eyes share where each may step most_m either way first.
std::optional<optics::AxialRange> common_span(const Viewpoint& at,
                                              const std::vector<optics::PointInView>& eyes,
                                              const Demand& demand, double most_m) {
    const auto lens = stopped_lens(at, demand.f_number);
    optics::AxialRange common{0, std::numeric_limits<double>::infinity()};
    for (const optics::PointInView& eye : eyes) {
        const auto for_near_end = focus_span(
            lens, drifted(stepped_back(at, eye, -most_m), demand.margin_m), demand.limit_mm);
        const auto for_far_end = focus_span(
            lens, drifted(stepped_back(at, eye, most_m), -demand.margin_m), demand.limit_mm);
        if (!for_near_end || !for_far_end)
            return std::nullopt;
        common.near_m = std::max(common.near_m, for_near_end->near_m);
        common.far_m = std::min(common.far_m, for_far_end->far_m);
        if (common.near_m > common.far_m)
            return std::nullopt;
    }
    return common;
}

int bounded_cm(double cm) {
    constexpr double farthest_cm = 1e6;
    return static_cast<int>(std::clamp(cm, -farthest_cm, farthest_cm));
}

}  // namespace

optics::Lens stopped_lens(const Viewpoint& at, double f_number) {
    const auto lens = at.view.focused().stopped_to(f_number);
    assert(lens);
    return *lens;
}

double axial_per_back(const Viewpoint& at) {
    return -at.view.forward.z;
}

optics::PointInView stepped_back(const Viewpoint& at, const optics::PointInView& eye, double by_m) {
    const double axial = eye.axial_m + by_m * axial_per_back(at);
    return {.axial_m = axial, .field_tangent = eye.field_tangent * eye.axial_m / axial};
}

std::vector<optics::PointInView> drifted_both_ways(const std::vector<optics::PointInView>& eyes,
                                                   double margin_m) {
    if (margin_m == 0)
        return eyes;
    std::vector<optics::PointInView> ends;
    ends.reserve(2 * eyes.size());
    for (const optics::PointInView& eye : eyes)
        for (const double by_m : {-margin_m, margin_m})
            ends.push_back(drifted(eye, by_m));
    return ends;
}

std::optional<optics::AxialRange> holding_span(const Viewpoint& at,
                                               const std::vector<optics::PointInView>& eyes,
                                               const Demand& demand) {
    return common_span(at, eyes, demand, 0);
}

std::optional<optics::AxialRange> reachable_span(const Viewpoint& at, const Demand& demand,
                                                 int most_cm) {
    return common_span(at, at.eyes, demand, m_from_cm(most_cm));
}

std::vector<MoveRange> holding_ranges(const Viewpoint& at, const Demand& demand,
                                      const optics::AxialRange& focus) {
    const auto lens = stopped_lens(at, demand.f_number);
    const auto near_zones = zones_with(lens, focus.near_m, demand.limit_mm);
    const auto far_zones = zones_with(lens, focus.far_m, demand.limit_mm);
    std::vector<MoveRange> ranges;
    ranges.reserve(at.eyes.size());
    for (const optics::PointInView& eye : at.eyes) {
        const auto near_zone = near_zones ? near_zones->of(eye) : std::nullopt;
        const auto far_zone = far_zones ? far_zones->of(eye) : std::nullopt;
        if (!near_zone || !far_zone) {
            ranges.push_back({1, 0});
            continue;
        }
        const auto cm = [&](double axial_m) {
            return cm_from_m((axial_m - eye.axial_m) / axial_per_back(at));
        };
        ranges.push_back({bounded_cm(std::ceil(cm(near_zone->near_m + demand.margin_m))),
                          bounded_cm(std::floor(cm(far_zone->far_m - demand.margin_m)))});
    }
    return ranges;
}

}  // namespace backrow::plan
