#include "plan/advice/advice_focus.h"

#include "plan/odds/frame_model.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace backrow::plan {
namespace {

/// Zones of single eyes with the focus at one place, by the model that the odds are made of.
class Zones {
public:
    Zones(const optics::UnfocusedLens& lens, double limit_mm, double focus_m)
        : lens_{lens}, model_{.focal_length_mm = lens.focal_length_mm,
                              .f_number = lens.f_number,
                              .focus_m = focus_m,
                              .limit_mm = limit_mm,
                              .faces = {}},
          landed_{landed(model_, focus_m)} {
        model_.spherical_spread_dpt =
            std::abs(optics::defocus_dpt(lens.profile, lens.f_number, 1, 0)) /
            (3 * std::numbers::sqrt2);
        image_height_per_tangent_ =
            mm_from_m(1 / (1 / m_from_mm(lens.focal_length_mm) - 1 / focus_m)) /
            lens.half_diagonal_mm;
        face_.can_hold = true;
        face_.room_mm2 = limit_mm * limit_mm;
    }

    /// Axial distances within which this eye holds.
    [[nodiscard]] std::optional<optics::AxialRange> of(const optics::PointInView& eye) {
        if (!landed_)
            return std::nullopt;
        face_.axial_m = eye.axial_m;
        face_.vergence_dpt = optics::defocus_dpt(lens_.profile, lens_.f_number, std::sqrt(2.0 / 3),
                                                 image_height_per_tangent_ * eye.field_tangent);
        return zone(model_, face_, *landed_);
    }

private:
    const optics::UnfocusedLens& lens_;
    FrameModel model_;
    std::optional<LandedLens> landed_;
    double image_height_per_tangent_ = 0;
    VaryingFace face_;
};

int bounded_cm(double cm) {
    constexpr double farthest_cm = 1e6;
    return static_cast<int>(std::clamp(cm, -farthest_cm, farthest_cm));
}

}  // namespace

optics::UnfocusedLens unfocused_lens(const Viewpoint& at, double f_number) {
    const scene::CameraView& view = at.view;
    return {.profile = view.profile,
            .focal_length_mm = view.focal_length_mm,
            .f_number = f_number,
            .half_diagonal_mm = std::hypot(view.sensor_width_mm, view.sensor_height_mm) / 2};
}

double axial_per_back(const Viewpoint& at) {
    return -at.view.forward.z;
}

optics::PointInView stepped_back(const Viewpoint& at, const optics::PointInView& eye, double by_m) {
    const double axial = eye.axial_m + by_m * axial_per_back(at);
    return {.axial_m = axial, .field_tangent = eye.field_tangent * eye.axial_m / axial};
}

std::optional<optics::AxialRange> reachable_span(const Viewpoint& at, const Demand& demand,
                                                 int most_cm) {
    const double most_m = m_from_cm(most_cm);
    const auto lens = unfocused_lens(at, demand.f_number);
    optics::AxialRange common{0, std::numeric_limits<double>::infinity()};
    for (const optics::PointInView& eye : at.eyes) {
        const auto nearest = focus_span(lens, stepped_back(at, eye, -most_m), demand.limit_mm);
        const auto farthest =
            most_cm == 0 ? nearest
                         : focus_span(lens, stepped_back(at, eye, most_m), demand.limit_mm);
        if (!nearest || !farthest)
            return std::nullopt;
        common.near_m = std::max(common.near_m, nearest->near_m);
        common.far_m = std::min(common.far_m, farthest->far_m);
        if (common.near_m > common.far_m)
            return std::nullopt;
    }
    return common;
}

std::vector<MoveRange> holding_ranges(const Viewpoint& at, const Demand& demand,
                                      const optics::AxialRange& focus) {
    const auto lens = unfocused_lens(at, demand.f_number);
    Zones near_zones{lens, demand.limit_mm, focus.near_m};
    Zones far_zones{lens, demand.limit_mm, focus.far_m};
    std::vector<MoveRange> ranges;
    ranges.reserve(at.eyes.size());
    for (const optics::PointInView& eye : at.eyes) {
        const auto near_zone = near_zones.of(eye);
        const auto far_zone = far_zones.of(eye);
        if (!near_zone || !far_zone) {
            ranges.push_back({1, 0});
            continue;
        }
        const auto cm = [&](double axial_m) {
            return cm_from_m((axial_m - eye.axial_m) / axial_per_back(at));
        };
        ranges.push_back({bounded_cm(std::ceil(cm(near_zone->near_m))),
                          bounded_cm(std::floor(cm(far_zone->far_m)))});
    }
    return ranges;
}

}  // namespace backrow::plan
