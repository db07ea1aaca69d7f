#pragma once

// Bodies as fields: rounded cones along the bones and a trunk of measured breadth and depth, joined
// smoothly. Negative inside, roughly metres.

#include "figures/appearance.h"
#include "figures/skeleton.h"

#include "shapes/implicit_surface.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace backrow::figures {

/// The smaller of two distances with the corner between them rounded over `blend_m`.
/// Source: [QUILEZ] polynomial smooth minimum.
[[nodiscard]] inline double blended(double a, double b, double blend_m) noexcept {
    const double h = std::max(blend_m - std::abs(a - b), 0.0) / blend_m;
    return std::min(a, b) - h * h * blend_m / 4;
}

/// Where a ray that starts inside leaves a body: its length there, metres, between 0 and reach_m.
[[nodiscard]] double leaves_at(const shapes::Field& body, const glm::dvec3& from_m,
                               const glm::dvec3& along, double reach_m);

/// A limb between two balls.
struct RoundedCone {
    glm::dvec3 from_m, to_m;
    double from_radius_m = 0, to_radius_m = 0;

    [[nodiscard]] double distance_m(const glm::dvec3& p) const noexcept {
        const glm::dvec3 bone = to_m - from_m;
        const glm::dvec3 off = p - from_m;
        const double t = std::clamp(glm::dot(off, bone) / glm::dot(bone, bone), 0.0, 1.0);
        return glm::length(off - bone * t) - (from_radius_m + (to_radius_m - from_radius_m) * t);
    }

    /// How far p lies beyond the bone's end, along it.
    [[nodiscard]] double beyond_end_m(const glm::dvec3& p) const noexcept {
        return glm::dot(p - to_m, glm::normalize(to_m - from_m));
    }
};

/// The bones of the limbs, as thick as they are with and without cloth; 0 = left. A short sleeve is
/// the forearm of `forearms`.
struct ClothedLimbs {
    std::array<RoundedCone, 2> upper_arms, forearms, thighs, shanks;
    std::array<RoundedCone, 2> bare_upper_arms, bare_forearms, bare_shanks;
};

[[nodiscard]] ClothedLimbs clothed_limbs(const Skeleton& skeleton, const Appearance& look,
                                         const BodyMeasures& measures);

/// Where cloth ends: the plane through `at_m`, nothing being left on the side that `away` points
/// to.
struct Cut {
    glm::dvec3 at_m{0};
    glm::dvec3 away{0, -1, 0};

    [[nodiscard]] double beyond_m(const glm::dvec3& p) const noexcept {
        return glm::dot(p - at_m, away);
    }
};

/// A part of a garment that ends in a plane: a sleeve, the body of a shirt.
struct Piece {
    shapes::Field field;
    Cut cut;
};

/// What is worn or bare, as a field, with the box that holds it. The field of a garment that is
/// made of pieces runs on a little beyond their cuts, so that its mesh can be cut in clean lines.
struct Covering {
    shapes::Field field;
    glm::dvec3 least_m{0}, most_m{0};
    std::vector<Piece> pieces;

    /// The cut of the piece that p belongs to; there is at least one.
    [[nodiscard]] const Cut& cut_at(const glm::dvec3& p) const;
};

/// Jacket, shirt, jumper: trunk and sleeves, over what is worn below.
[[nodiscard]] Covering top_of(const Skeleton& skeleton, const Appearance& look,
                              const BodyMeasures& measures, const Covering& bottom);
/// Trousers or skirt.
[[nodiscard]] Covering bottom_of(const Skeleton& skeleton, const Appearance& look,
                                 const BodyMeasures& measures);
/// One forearm (bare below a short sleeve, else the wrist), 0 = left.
[[nodiscard]] Covering bare_arm(const Skeleton& skeleton, const Appearance& look,
                                const BodyMeasures& measures, int side);
/// One shank below a skirt or an ankle below trousers.
[[nodiscard]] Covering bare_leg(const Skeleton& skeleton, const Appearance& look,
                                const BodyMeasures& measures, int side);
[[nodiscard]] Covering bare_neck(const Skeleton& skeleton, const Appearance& look,
                                 const BodyMeasures& measures);

/// The end of a sleeve: its last bone, ending at the cuff.
[[nodiscard]] RoundedCone sleeve_end(const Skeleton& skeleton, const Appearance& look,
                                     const BodyMeasures& measures, int side);

/// The hem of the top. On somebody seated it rises in front to lie on the thighs.
[[nodiscard]] Cut hem_cut(const Skeleton& skeleton, const Appearance& look,
                          const BodyMeasures& measures);

/// The hem of the top behind, metres up the trunk from the hips.
[[nodiscard]] double hem_up_m(const Appearance& look, const BodyMeasures& measures);

/// The upper edge of trousers or skirt, likewise.
[[nodiscard]] double belt_up_m(const Appearance& look, const BodyMeasures& measures);

/// Whether the arms are bare below the middle of the upper arm.
[[nodiscard]] bool has_short_sleeves(const Appearance& look);

/// Whether the top is worn inside the skirt.
[[nodiscard]] bool is_tucked(const Appearance& look);

}  // namespace backrow::figures
