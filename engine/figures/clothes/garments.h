#pragma once

// What is worn: where each garment ends, and its shape as fields that are joined smoothly but kept
// apart, so that a sleeve beside a hip does not grow onto it.

#include "figures/appearance.h"
#include "figures/body/flesh.h"
#include "figures/posture/skeleton.h"

#include "shapes/field.h"

#include <glm/geometric.hpp>
#include <glm/vec3.hpp>

#include <array>

namespace backrow::figures {

/// Whether the arms are bare below the middle of the upper arm.
[[nodiscard]] bool has_short_sleeves(const Appearance& look);

/// Whether the top is worn inside the skirt.
[[nodiscard]] bool is_tucked(const Appearance& look);

/// How much thicker than the body a top makes it, metres.
[[nodiscard]] double cloth_of_top_m(const Appearance& look, const BodyMeasures& measures);

/// Likewise of trousers.
[[nodiscard]] double cloth_of_trousers_m(const BodyMeasures& measures);

/// The middle of a trouser leg's hem, some way down the shoe.
[[nodiscard]] glm::dvec3 trouser_hem_m(const Skeleton& skeleton, const BodyMeasures& measures,
                                       std::size_t side);

/// The hem of a top that is not tucked in, metres up the trunk from the hips; around_rad from
/// straight ahead towards the left. Over a raised thigh it lies on the lap.
[[nodiscard]] double hem_up_m(const Skeleton& skeleton, const Appearance& look,
                              const BodyMeasures& measures, double around_rad);

/// The upper edge of trousers or skirt, likewise.
[[nodiscard]] double belt_up_m(const Appearance& look, const BodyMeasures& measures);

/// The upper edge of a skirt at forward_m before the trunk's axis, likewise: over a lap it tips,
/// its front up.
[[nodiscard]] double skirt_top_up_m(const Skeleton& skeleton, const Appearance& look,
                                    const BodyMeasures& measures, double forward_m);

/// 1 where a skirt hangs, as of somebody who stands; 0 where the thighs are level and it lies on
/// them.
[[nodiscard]] double hanging_of_skirt(const Skeleton& skeleton);

/// Below this it lies on the lap and is bent over the knees.
inline constexpr double skirt_lies_below = 0.7;

/// How far below the knees' joints the hem of a skirt falls over a lap, metres.
[[nodiscard]] double skirt_over_knees_m(const BodyMeasures& measures);

/// From the middle of a skirt's upper edge down to where it bends into a lap or goes on hanging.
struct SkirtWaist {
    glm::dvec3 belt_m, lap_m;
};
[[nodiscard]] SkirtWaist skirt_waist(const Skeleton& skeleton, const Appearance& look,
                                     const BodyMeasures& measures);

/// The last bone of a sleeve, as thick as its cloth and ending where it ends.
[[nodiscard]] RoundedCone sleeve_end(const Skeleton& skeleton, const Appearance& look,
                                     const BodyMeasures& measures, std::size_t side);

/// Where two parts of a garment are sewn together.
struct Seam {
    glm::dvec3 at_m;    ///< In its plane.
    glm::dvec3 across;  ///< Unit, from the body towards the limb.

    [[nodiscard]] double beyond_m(const glm::dvec3& p) const { return glm::dot(p - at_m, across); }
};

/// Trousers: the seat, which dives under the legs beyond their seams, and each leg.
struct TrouserFields {
    shapes::Field seat;
    std::array<shapes::Field, 2> legs;
};

[[nodiscard]] TrouserFields trousers_of(const Skeleton& skeleton, const Appearance& look,
                                        const BodyMeasures& measures);

/// The skirt with all that it covers.
[[nodiscard]] shapes::Field skirt_of(const Skeleton& skeleton, const Appearance& look,
                                     const BodyMeasures& measures);

/// A top: its body, which dives under the sleeves beyond their seams, and each sleeve.
struct TopFields {
    shapes::Field body;
    std::array<shapes::Field, 2> sleeves;
    std::array<Seam, 2> armholes;
};

/// `seat` is what the hem hangs over.
[[nodiscard]] TopFields top_of(const Skeleton& skeleton, const Appearance& look,
                               const BodyMeasures& measures, const shapes::Field& seat);

}  // namespace backrow::figures
