#include "measure/edge_anatomy.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace backrow::measure {
namespace {

constexpr double least_step = 0.02;  // of full scale
constexpr double settled = 0.004;    // of the step: the edge's blur has ended

template <class Wanted>
Level level(const std::vector<ProfileBin>& profile, Wanted wanted) {
    Level level;
    for (const ProfileBin& bin : profile)
        if (wanted(bin.at_px))
            level.add(bin);
    return level;
}

/// Means over a pixel, noise as small as may be without hiding the edge.
struct Smoothed {
    double at_px;
    double share;  ///< Of the step, 0 on the left … 1 on the right.
    double error;  ///< Standard error of that.
};

std::vector<Smoothed> smoothed(const std::vector<ProfileBin>& profile, const Anatomy& edge) {
    std::vector<Smoothed> shares;
    for (std::size_t i = 0; i < profile.size(); ++i) {
        Level about;
        constexpr std::size_t either_side = bins_per_px / 2;
        for (std::size_t j = i - std::min(i, either_side);
             j <= std::min(i + either_side, profile.size() - 1); ++j)
            about.add(profile[j]);
        shares.push_back({profile[i].at_px, (about.light - edge.left.light) / edge.step(),
                          std::sqrt(edge.noise() / about.pixels) / std::abs(edge.step())});
    }
    return shares;
}

/// How far from the middle a share of the step is reached, outward on one side.
template <class Reached>
double outward(const std::vector<Smoothed>& shares, bool to_right, Reached reached) {
    double at_px = to_right ? shares.back().at_px : shares.front().at_px;
    const auto middle = std::ranges::lower_bound(shares, 0.0, {}, &Smoothed::at_px);
    if (to_right) {
        for (auto share = middle; share != shares.end(); ++share)
            if (reached(share))
                return share->at_px;
    } else {
        for (auto share = middle; share != shares.begin(); --share)
            if (reached(share - 1))
                return (share - 1)->at_px;
    }
    return at_px;
}

/// How much the light would change over a side of the edge if it did so all over as in its outer
/// third, of the step, less what noise may do: a halo ends, a gradient does not.
double drift(const std::vector<ProfileBin>& profile, const Anatomy& edge, double end_px) {
    const auto sixth = [&](double from_end) {
        return level(profile, [&](double at_px) {
            const double out = at_px / end_px;
            return out > 1 - (from_end + 1) / 6 && out <= 1 - from_end / 6;
        });
    };
    const Level outer = sixth(0);
    const Level inner = sixth(1);
    if (outer.pixels == 0 || inner.pixels == 0)
        return 0;
    const double error = std::sqrt(edge.noise() * (1 / outer.pixels + 1 / inner.pixels));
    return 6 * (std::abs(outer.light - inner.light) - sure * error) / std::abs(edge.step());
}

}  // namespace

std::optional<Anatomy> anatomy(const std::vector<ProfileBin>& profile) {
    constexpr std::size_t fewest_bins = std::size_t{4} * bins_per_px;
    if (profile.size() < fewest_bins || profile.front().at_px > -least_plateau_px ||
        profile.back().at_px < least_plateau_px)
        return std::nullopt;
    Anatomy edge{.first_px = profile.front().at_px, .last_px = profile.back().at_px};
    edge.core_from_px = edge.first_px * 0.75;
    edge.core_to_px = edge.last_px * 0.75;
    for (int round = 0; round < 3; ++round) {
        edge.left = level(profile, [&](double at_px) { return at_px < edge.core_from_px; });
        edge.right = level(profile, [&](double at_px) { return at_px > edge.core_to_px; });
        const double step = std::abs(edge.step());
        if (edge.left.pixels == 0 || edge.right.pixels == 0 || step < least_step ||
            step < sure * std::sqrt(edge.noise() / std::min(edge.left.pixels, edge.right.pixels)))
            return std::nullopt;

        const std::vector<Smoothed> shares = smoothed(profile, edge);
        const double tenth_px =
            outward(shares, false, [](auto share) { return share->share < 0.1; });
        const double nine_tenths_px =
            outward(shares, true, [](auto share) { return share->share > 0.9; });
        edge.rise_px = nine_tenths_px - tenth_px;
        const double middle_px = (tenth_px + nine_tenths_px) / 2;

        // Where the step has been within noise of its plateau for two pixels on end.
        constexpr int long_enough = 2 * bins_per_px;
        const auto settles = [&](bool to_right) {
            int quiet = 0;
            const double end_px = outward(shares, to_right, [&](auto share) {
                const double off = std::abs(share->share - (to_right ? 1.0 : 0.0));
                quiet = off < std::max(settled, 3 * share->error) ? quiet + 1 : 0;
                return quiet > long_enough;
            });
            return end_px + (to_right ? -1.5 : 1.5);
        };
        // A Gaussian's whole width is 3 of these on either side, a disc's 1.5.
        const double least_half_px = 1.5 * edge.rise_px + 0.75;
        edge.core_from_px = std::max(std::min(settles(false), middle_px - least_half_px),
                                     edge.first_px + least_plateau_px);
        edge.core_to_px = std::min(std::max(settles(true), middle_px + least_half_px),
                                   edge.last_px - least_plateau_px);
        edge.overshoot = 0;
        edge.unevenness =
            std::max(drift(profile, edge, edge.first_px), drift(profile, edge, edge.last_px));
        for (const Smoothed& share : shares) {
            const bool is_beside = share.at_px > edge.core_from_px && share.at_px < edge.core_to_px;
            const double beyond = share.at_px > middle_px ? share.share - 1 : -share.share;
            double& most = is_beside ? edge.overshoot : edge.unevenness;
            most = std::max(most, (is_beside ? beyond : std::abs(beyond)) - sure * share.error);
        }
    }
    return edge;
}

}  // namespace backrow::measure
