#include "plan/advice_viewpoint.h"

#include "plan/frame_model.h"
#include "plan/grade_limit.h"

#include "scene/camera_view.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace backrow::plan {
namespace {

optics::UnfocusedLens at_f_number(optics::UnfocusedLens lens, double f_number) {
    lens.f_number = f_number;
    return lens;
}

/// Axial distances within which this point holds with the focus there.
std::optional<optics::SharpZone> zone_of(const Viewpoint& at, double f_number,
                                         const optics::PointInView& eye, double focus_m) {
    FrameModel model{.focal_length_mm = at.lens.focal_length_mm,
                     .f_number = f_number,
                     .focus_m = focus_m,
                     .limit_mm = at.limit_mm,
                     .faces = {}};
    const double spherical_dpt = optics::defocus_dpt(at.lens.profile, f_number, 1, 0);
    model.spherical_spread_dpt = std::abs(spherical_dpt) / (3 * std::numbers::sqrt2);
    const auto landed_lens = landed(model, focus_m);
    if (!landed_lens)
        return std::nullopt;
    const double v_m = 1 / (1 / m_from_mm(at.lens.focal_length_mm) - 1 / focus_m);
    VaryingFace face{.name = {}, .axial_m = eye.axial_m, .can_hold = true};
    face.vergence_dpt = optics::defocus_dpt(at.lens.profile, f_number, std::sqrt(2.0 / 3),
                                            mm_from_m(v_m) * eye.slope / at.lens.half_diagonal_mm);
    face.room_mm2 = at.limit_mm * at.limit_mm;
    return zone(model, face, *landed_lens);
}

int bounded_cm(double cm) {
    constexpr double farthest_cm = 1e6;
    return static_cast<int>(std::clamp(cm, -farthest_cm, farthest_cm));
}

}  // namespace

Viewpoint viewpoint(scene::Scene scene, optics::Grade grade) {
    const scene::CameraView view = camera_view(scene);
    Viewpoint at{
        .scene = {},
        .lens = {.profile = view.profile,
                 .focal_length_mm = view.focal_length_mm,
                 .f_number = view.f_number,
                 .half_diagonal_mm = std::hypot(view.sensor_width_mm, view.sensor_height_mm) / 2},
        .eyes = {},
        .limit_mm = blur_limit_mm(grade, scene.viewing, view),
        .axial_per_back = -view.forward.z};
    for (const scene::Person& person : scene.people) {
        const glm::dvec3 from_lens_m = nearer_eye_m(view, person) - view.position_m;
        const double axial = glm::dot(from_lens_m, view.forward);
        at.eyes.push_back(
            {.axial_m = axial, .slope = glm::length(from_lens_m - axial * view.forward) / axial});
    }
    at.scene = std::move(scene);
    return at;
}

std::optional<optics::FocusSpan> common_span(const Viewpoint& at, double f_number) {
    return reachable_span(at, f_number, 0);
}

std::optional<optics::FocusSpan> reachable_span(const Viewpoint& at, double f_number, int most_cm) {
    const double reach_m = m_from_cm(most_cm) * at.axial_per_back;
    const auto lens = at_f_number(at.lens, f_number);
    optics::FocusSpan common{0, std::numeric_limits<double>::infinity()};
    for (const optics::PointInView& eye : at.eyes) {
        const auto moved = [&](double by_m) {
            const double axial = eye.axial_m + by_m;
            return optics::PointInView{axial, eye.slope * eye.axial_m / axial};
        };
        const auto nearest = focus_span(lens, moved(-reach_m), at.limit_mm);
        const auto farthest =
            most_cm == 0 ? nearest : focus_span(lens, moved(reach_m), at.limit_mm);
        if (!nearest || !farthest)
            return std::nullopt;
        common.near_m = std::max(common.near_m, nearest->near_m);
        common.far_m = std::min(common.far_m, farthest->far_m);
        if (common.near_m > common.far_m)
            return std::nullopt;
    }
    return common;
}

std::vector<MoveRange> holding_ranges(const Viewpoint& at, double f_number,
                                      const optics::FocusSpan& focus) {
    std::vector<MoveRange> ranges;
    for (const optics::PointInView& eye : at.eyes) {
        const auto near_zone = zone_of(at, f_number, eye, focus.near_m);
        const auto far_zone = zone_of(at, f_number, eye, focus.far_m);
        if (!near_zone || !far_zone) {
            ranges.push_back({1, 0});
            continue;
        }
        const auto cm = [&](double axial_m) {
            return cm_from_m((axial_m - eye.axial_m) / at.axial_per_back);
        };
        ranges.push_back({bounded_cm(std::ceil(cm(near_zone->near_m))),
                          bounded_cm(std::floor(cm(far_zone->far_m)))});
    }
    return ranges;
}

}  // namespace backrow::plan
