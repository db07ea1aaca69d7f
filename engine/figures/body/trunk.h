#pragma once

// The trunk of a body as a field: chest, waist, hips, seat. Negative inside, roughly metres.

#include "figures/body/smooth_curve.h"
#include "figures/posture/skeleton.h"

#include <glm/vec3.hpp>

#include <array>
#include <cstddef>

namespace backrow::figures {

/// The trunk as a stack of rounded ovals, in its own axes from the middle of the hips.
class Trunk {
public:
    /// bridged_m   by how much more cloth stands off the hollow of the waist
    Trunk(const Skeleton& skeleton, const BodyMeasures& measures, bool feminine, double cloth_m,
          double bridged_m = 0);

    [[nodiscard]] double distance_m(const glm::dvec3& figure) const;

    /// A point in the trunk's own axes: towards the left, up, forward.
    [[nodiscard]] glm::dvec3 local_m(const glm::dvec3& figure) const {
        return local_from_figure_ * (figure - origin_);
    }

private:
    static constexpr std::size_t rings = 7;

    glm::dvec3 origin_;
    Axes local_from_figure_;
    SmoothCurve<rings> breadth_, depth_, middle_;
};

/// Buttocks and belly below the waist, which the trunk alone would leave flat when it bends.
[[nodiscard]] double seat_distance_m(const Skeleton& skeleton, const BodyMeasures& measures,
                                     const glm::dvec3& point, double cloth_m);

/// Flesh gives way to what one sits on: how deep a point lies in the seat, which ends before the
/// hollow of the knees. Negative outside of it.
[[nodiscard]] double below_seat_m(const Skeleton& skeleton, const glm::dvec3& point);

}  // namespace backrow::figures
