#pragma once

// What lies where across a slanted edge: its two plateaus, the blur between them, and what is amiss
// beside it.

#include "measure/edge_profile.h"

#include <optional>
#include <vector>

namespace backrow::measure {

/// A mean of bins, each pixel counting once.
struct Level {
    double light = 0;
    double pixels = 0;
    double bins = 0;
    double spread = 0;

    void add(const ProfileBin& bin) {
        pixels += bin.pixels;
        bins += 1;
        light += (bin.light - light) * bin.pixels / pixels;
        spread += (bin.light_spread - spread) * bin.pixels / pixels;
    }
    /// Variance of a pixel's noise. Bins of a few pixels have found their own mean.
    [[nodiscard]] double noise() const { return spread * pixels / std::max(1.0, pixels - bins); }
};

/// What lies where across an edge.
struct Anatomy {
    double first_px = 0;  ///< The profile's ends.
    double last_px = 0;
    Level left{};
    Level right{};
    double rise_px = 0;
    double core_from_px = 0;  ///< The blur of the edge lies within.
    double core_to_px = 0;
    double overshoot = 0;   ///< Beside the edge, of the step, less what noise may do.
    double unevenness = 0;  ///< Farther out, likewise.

    [[nodiscard]] double step() const { return right.light - left.light; }
    [[nodiscard]] double noise() const { return (left.noise() + right.noise()) / 2; }
};

inline constexpr double least_plateau_px = 2;
inline constexpr double sure = 4;  ///< Standard errors.

/// Nothing where there is no step. The blur is sought between the plateaus and the plateaus beside
/// the blur, so it takes a few rounds.
///
/// profile  from left to right
[[nodiscard]] std::optional<Anatomy> anatomy(const std::vector<ProfileBin>& profile);

}  // namespace backrow::measure
