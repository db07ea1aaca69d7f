#include "figures/posture/spots.h"

#include "figures/appearance.h"
#include "figures/body/flesh.h"
#include "figures/body/trunk.h"
#include "figures/clothes/garments.h"
#include "figures/posture/skeleton.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// Trunk, shoulders and upper arms with what is worn over them.
class ClothedBody {
public:
    explicit ClothedBody(const Person& person)
        : skeleton_{skeleton(person)}, measures_{person.measures} {
        const Appearance look = appearance(person);
        const double cloth_m = cloth_of_top_m(look, measures_);
        const Trunk trunk{skeleton_, measures_, look.feminine, cloth_m};
        std::array<RoundedCone, 6> parts;
        for (const std::size_t side : {0u, 1u}) {
            parts[3 * side] = deltoid(skeleton_, measures_, side, cloth_m);
            parts[3 * side + 1] = collar_bone(skeleton_, measures_, side, cloth_m);
            parts[3 * side + 2] = upper_arm(skeleton_, measures_, side, cloth_m);
        }
        const double blend_m = 0.02 * measures_.stature_m;
        field_ = [=](const dvec3& p) {
            double whole = trunk.distance_m(p);
            for (const RoundedCone& part : parts)
                whole = smooth_min(whole, part.distance_m(p), blend_m);
            return whole;
        };
    }

    [[nodiscard]] const Skeleton& joints() const { return skeleton_; }

    /// Where a line from within, in the trunk's own directions, comes out.
    [[nodiscard]] Spot met(const dvec3& from_local_m, const dvec3& local_direction) const {
        const dvec3 from = skeleton_.on_trunk(from_local_m);
        const dvec3 along = skeleton_.trunk * glm::normalize(local_direction);
        const double reach_m = 0.2 * measures_.stature_m * std::max(1.0, skeleton_.build.flesh);
        const dvec3 at = from + along * leaves_at(field_, from, along, reach_m);
        const double step_m = 0.004 * measures_.stature_m;
        dvec3 out{0};
        for (const dvec3& axis : {dvec3{1, 0, 0}, dvec3{0, 1, 0}, dvec3{0, 0, 1}})
            out += axis * (field_(at + axis * step_m) - field_(at - axis * step_m));
        return {at, glm::normalize(out)};
    }

private:
    Skeleton skeleton_;
    BodyMeasures measures_;
    shapes::Field field_;
};

Spot on_trunk_side(const Person& person, int side, double across, double up, double forward) {
    const ClothedBody body{person};
    const Build& build = body.joints().build;
    const double out = side == 0 ? 1.0 : -1.0;
    const double x = out * across * build.shoulder_half_m;
    // Beyond the joint the way out is round the shoulder.
    const double beyond = std::clamp(2 * (across - 0.6), 0.0, 1.0);
    return body.met({std::clamp(x, -build.shoulder_half_m, build.shoulder_half_m) * 0.96,
                     up * build.shoulder_up_m, 0},
                    {out * beyond, 0, forward});
}

}  // namespace

Spot on_the_back(const Person& person, int side, double across, double up) {
    return on_trunk_side(person, side, across, up, -1);
}

Spot on_the_chest(const Person& person, int side, double across, double up) {
    return on_trunk_side(person, side, across, up, 1);
}

Spot on_the_shoulder(const Person& person, int side) {
    const ClothedBody body{person};
    const Build& build = body.joints().build;
    const double out = side == 0 ? 1.0 : -1.0;
    return body.met({out * 0.86 * build.shoulder_half_m, 0.97 * build.shoulder_up_m, 0},
                    {out * 0.15, 1, 0});
}

Bearing bearing(const Person& person) {
    const Skeleton s = skeleton(person);
    return {.shoulders_m = s.on_trunk({0, s.build.shoulder_up_m, 0}),
            .left = s.trunk[0],
            .up = s.trunk[1],
            .forward = s.trunk[2],
            .shoulder_half_m = s.build.shoulder_half_m,
            .hips_to_shoulders_m = s.build.shoulder_up_m};
}

}  // namespace backrow::figures
