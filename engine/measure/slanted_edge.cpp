#include "measure/slanted_edge.h"

#include "measure/edge_profile.h"
#include "measure/transposed.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>
#include <optional>

namespace backrow::measure {
namespace {

constexpr double nearly_white = 0.998;  // 8 bits have 255 only above it
constexpr double most_clipped_share = 0.005;
constexpr double least_step = 0.02;       // of full scale
constexpr double most_overshoot = 0.02;   // of the step
constexpr double most_unevenness = 0.05;  // of the step
constexpr double most_sagitta_px = 0.3;
constexpr double settled = 0.004;  // of the step: the edge's blur has ended
constexpr double sure = 4;         // standard errors
constexpr double least_plateau_px = 2;
constexpr double hamming_foot = 0.08;
// Of MTF50. Eight bits without noise tell a plateau to half a digit, and the blur's ends with it.
constexpr double own_error = 0.005;

Image<float> cut_out(const Image<float>& picture, const PixelBox& box) {
    Image<float> cut(box.width_px, box.height_px);
    for (int y = 0; y < box.height_px; ++y)
        for (int x = 0; x < box.width_px; ++x)
            cut.at(x, y) = picture.at(box.left + x, box.top + y);
    return cut;
}

bool is_clipped(const Image<float>& box) {
    const auto clipped = std::ranges::count_if(
        box.pixels(), [](float light) { return light <= 0 || light >= nearly_white; });
    return static_cast<double>(clipped) >
           most_clipped_share * static_cast<double>(box.pixels().size());
}

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

template <class Wanted>
Level level(const std::vector<ProfileBin>& profile, Wanted wanted) {
    Level level;
    for (const ProfileBin& bin : profile)
        if (wanted(bin.at_px))
            level.add(bin);
    return level;
}

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

/// Nothing where there is no step. The blur is sought between the plateaus and the plateaus beside
/// the blur, so it takes a few rounds.
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

/// A straight line through the bins on one side, each pixel counting once.
struct FallingLight {
    double light = 0;  ///< At the edge.
    double per_px = 0;
    double error_per_px = 0;
};

std::optional<FallingLight> slope_beyond(const std::vector<ProfileBin>& profile,
                                         const Anatomy& edge, bool right, double from_px) {
    double pixels = 0, at_px = 0, light = 0;
    const auto counts = [&](const ProfileBin& bin) {
        return (right ? bin.at_px : -bin.at_px) > from_px;
    };
    for (const ProfileBin& bin : profile)
        if (counts(bin)) {
            pixels += bin.pixels;
            at_px += (bin.at_px - at_px) * bin.pixels / pixels;
            light += (bin.light - light) * bin.pixels / pixels;
        }
    double square = 0, with_light = 0;
    for (const ProfileBin& bin : profile)
        if (counts(bin)) {
            square += bin.pixels * (bin.at_px - at_px) * (bin.at_px - at_px);
            with_light += bin.pixels * (bin.at_px - at_px) * (bin.light - light);
        }
    if (!(square > 0))
        return std::nullopt;
    const double per_px = with_light / square;
    return FallingLight{.light = light - per_px * at_px,
                        .per_px = per_px,
                        .error_per_px = std::sqrt(std::max(1e-20, edge.noise()) / square)};
}

/// Light that falls off across the box, as a lamp's does or a lens's towards its corners, takes the
/// same share of both sides. Its slope would count as blur, so where the plateaus leave no doubt of
/// it it is taken out.
std::vector<ProfileBin> evenly_lit(std::vector<ProfileBin> profile) {
    constexpr double widths = 1.75;  // of the rise: beyond, the blur has ended
    const auto edge = anatomy(profile);
    if (!edge)
        return profile;
    const double from_px = widths * edge->rise_px + 1;
    const auto left = slope_beyond(profile, *edge, false, from_px);
    const auto right = slope_beyond(profile, *edge, true, from_px);
    if (!left || !right || left->light <= 0 || right->light <= 0)
        return profile;
    double share_per_px = 0, weight = 0;
    for (const FallingLight& side : {*left, *right}) {
        const double certain = 1 / (side.error_per_px * side.error_per_px);
        share_per_px += certain * side.light * side.per_px;
        weight += certain * side.light * side.light;
    }
    share_per_px /= weight;
    const double farthest_px = std::max(-edge->first_px, edge->last_px);
    if (std::abs(share_per_px) < sure / std::sqrt(weight) ||
        std::abs(share_per_px) * farthest_px > 0.5)
        return profile;
    for (ProfileBin& bin : profile) {
        const double share = 1 + share_per_px * bin.at_px;
        bin.light /= share;
        bin.light_spread /= share * share;
    }
    return profile;
}

/// Level over the core, half of Hamming's window on either side of it.
class Window {
public:
    explicit Window(const Anatomy& edge)
        : from_px_{edge.core_from_px}, to_px_{edge.core_to_px},
          left_flank_px_{std::min(flank_px(edge), from_px_ - edge.first_px)},
          right_flank_px_{std::min(flank_px(edge), edge.last_px - to_px_)} {}

    [[nodiscard]] double operator()(double at_px) const {
        const double out = at_px < from_px_ ? (from_px_ - at_px) / left_flank_px_
                                            : std::max(0.0, (at_px - to_px_) / right_flank_px_);
        if (out > 1)
            return 0;
        return (1 + hamming_foot) / 2 + (1 - hamming_foot) / 2 * std::cos(std::numbers::pi * out);
    }

private:
    static double flank_px(const Anatomy& edge) {
        return std::max(least_plateau_px, (edge.core_to_px - edge.core_from_px) / 4);
    }
    double from_px_;
    double to_px_;
    double left_flank_px_;
    double right_flank_px_;
};

double sinc(double x) {
    return x == 0 ? 1 : std::sin(std::numbers::pi * x) / (std::numbers::pi * x);
}

/// The line spread, as differences of bins, with its transform.
class LineSpread {
public:
    LineSpread(const std::vector<ProfileBin>& profile, const Anatomy& edge) {
        const Window window{edge};
        double weight = 0;
        for (std::size_t i = 0; i + 1 < profile.size(); ++i) {
            const ProfileBin& here = profile[i];
            const ProfileBin& next = profile[i + 1];
            Part part{.at_px = (here.at_px + next.at_px) / 2};
            part.window = window(part.at_px);
            part.light = (next.light - here.light) * part.window;
            part.noise_before = edge.noise() / here.pixels;
            part.noise_after = edge.noise() / next.pixels;
            if (part.window == 0)
                continue;
            parts_.push_back(part);
            const double share = std::abs(part.light);
            weight += share;
            gap_px_ += share * (next.at_px - here.at_px);
            spread_px2_ += share * (here.spread_px2 + next.spread_px2) / 2;
        }
        gap_px_ /= weight;
        spread_px2_ /= weight;
        whole_ = std::abs(transform(0));
        whole_error_ = std::sqrt(noise_power(0)) / whole_;
    }

    /// The noise's own power is taken out: |.| would add it.
    [[nodiscard]] double mtf(double cy_per_px) const {
        const double power = std::norm(transform(cy_per_px)) - noise_power(cy_per_px);
        return std::sqrt(std::max(0.0, power)) / whole_ / own_filtering(cy_per_px);
    }

    /// Standard error of the MTF where it is well above the noise.
    [[nodiscard]] double error(double cy_per_px) const {
        return std::hypot(std::sqrt(noise_power(cy_per_px) / 2) / whole_ / own_filtering(cy_per_px),
                          whole_error_ * mtf(cy_per_px));
    }

private:
    struct Part {
        double at_px = 0;
        double window = 0;
        double light = 0;
        double noise_before = 0;
        double noise_after = 0;
    };

    [[nodiscard]] static std::complex<double> wave(double cy_per_px, double at_px) {
        return std::polar(1.0, -2 * std::numbers::pi * cy_per_px * at_px);
    }

    [[nodiscard]] std::complex<double> transform(double cy_per_px) const {
        std::complex<double> sum = 0;
        for (const Part& part : parts_)
            sum += part.light * wave(cy_per_px, part.at_px);
        return sum;
    }

    // A bin counts with + in one difference and with − in the next.
    [[nodiscard]] double noise_power(double cy_per_px) const {
        double power = 0;
        std::complex<double> before = 0;
        for (const Part& part : parts_) {
            const std::complex<double> here = part.window * wave(cy_per_px, part.at_px);
            power += std::norm(before - here) * part.noise_before;
            before = here;
        }
        return power + std::norm(before) * parts_.back().noise_after;
    }

    // A difference of two bins is the slope averaged over their distance; a bin is a mean over the
    // places that pixels have in it.
    [[nodiscard]] double own_filtering(double cy_per_px) const {
        const double wave_number = 2 * std::numbers::pi * cy_per_px;
        return sinc(cy_per_px * gap_px_) * std::exp(-wave_number * wave_number * spread_px2_ / 2);
    }

    std::vector<Part> parts_;
    double gap_px_ = 0;
    double spread_px2_ = 0;
    double whole_ = 0;
    double whole_error_ = 0;
};

/// Where the curve first falls through a half; nothing where it stays above.
std::optional<double> mtf50_of(const std::vector<MtfPoint>& curve, const LineSpread& spread) {
    const auto below = std::ranges::find_if(curve, [](const MtfPoint& p) { return p.mtf < 0.5; });
    if (below == curve.end() || below == curve.begin())
        return std::nullopt;
    double high = below->cy_per_px;
    double low = high - mtf_step_cy_per_px;
    for (int halving = 0; halving < 20; ++halving) {
        const double middle = (low + high) / 2;
        (spread.mtf(middle) < 0.5 ? high : low) = middle;
    }
    return (low + high) / 2;
}

/// The line as exactly as its rows have it; the blur must be known to know how far to look.
std::optional<EdgeLine> fine_line(const Image<float>& box) {
    auto line = rough_edge_line(box);
    for (int round = 0; line && round < 4; ++round) {
        const auto edge = anatomy(evenly_lit(edge_profile(box, *line)));
        if (!edge)
            return line;
        // Where light falls off beside the edge its blur seems to reach the sides of the box.
        constexpr double least_px = 2.0;
        double reach_px = std::max({least_px, edge->core_to_px, -edge->core_from_px});
        std::optional<EdgeLine> finer;
        for (; !finer && reach_px >= least_px; reach_px /= 1.5)
            finer = centroid_edge_line(box, *line, std::hypot(1.0, line->lean) * reach_px);
        if (!finer)
            return line;
        line = finer;
    }
    return line;
}

std::optional<Unfit> unfit_line(const EdgeLine& line, int length_px) {
    const double slant_deg = deg_from_rad(std::atan(std::abs(line.lean)));
    if (slant_deg > most_slant_deg)
        return Unfit::too_steep;
    if (slant_deg < least_slant_deg)
        return Unfit::too_straight;
    if (std::abs(line.lean) * length_px < 1)
        return Unfit::too_short;
    if (std::abs(line.sagitta_px) > most_sagitta_px + sure * line.sagitta_error_px)
        return Unfit::not_straight;
    return std::nullopt;
}

std::optional<Unfit> unfit_profile(const Anatomy& edge) {
    if (edge.overshoot > most_overshoot)
        return Unfit::sharpened;
    const double half_px = 1.5 * edge.rise_px;
    if (half_px > edge.core_to_px + 1 || half_px > 1 - edge.core_from_px)
        return Unfit::too_narrow;
    if (edge.unevenness > most_unevenness)
        return Unfit::uneven;
    return std::nullopt;
}

}  // namespace

tl::expected<EdgeSharpness, Unfit> measure_edge(const Image<float>& picture, const PixelBox& box) {
    using tl::unexpected;
    Image<float> region = cut_out(picture, box);
    if (is_clipped(region))
        return unexpected(Unfit::clipped);
    const bool is_upright = edge_is_upright(region);
    if (!is_upright)
        region = transposed(region);
    if (region.height_px() < shortest_edge_px)
        return unexpected(Unfit::too_short);

    const auto line = fine_line(region);
    if (!line)
        return unexpected(Unfit::no_contrast);
    const std::vector<ProfileBin> profile = evenly_lit(edge_profile(region, *line));
    const auto edge = anatomy(profile);
    if (!edge)
        return unexpected(Unfit::no_contrast);
    if (const auto why = unfit_line(*line, region.height_px()))
        return unexpected(*why);
    if (const auto why = unfit_profile(*edge))
        return unexpected(*why);

    EdgeSharpness sharpness{.is_upright = is_upright,
                            .angle_deg = deg_from_rad(std::atan(std::abs(line->lean))),
                            .dark = std::min(edge->left.light, edge->right.light),
                            .bright = std::max(edge->left.light, edge->right.light),
                            .rise_px = edge->rise_px};
    const LineSpread spread{profile, *edge};
    for (int i = 0; i * mtf_step_cy_per_px < 1 + mtf_step_cy_per_px / 2; ++i)
        sharpness.mtf.push_back({i * mtf_step_cy_per_px, spread.mtf(i * mtf_step_cy_per_px)});
    sharpness.mtf.front().mtf = 1;
    const auto mtf50 = mtf50_of(sharpness.mtf, spread);
    if (!mtf50)
        return unexpected(Unfit::noisy);
    sharpness.mtf50_cy_per_px = *mtf50;
    const double a_little = *mtf50 / 50;
    const double slope =
        (spread.mtf(*mtf50 - a_little) - spread.mtf(*mtf50 + a_little)) / (2 * a_little);
    const double of_noise = spread.error(*mtf50) / slope;
    if (!(of_noise < most_error * *mtf50) || slope <= 0)
        return unexpected(Unfit::noisy);
    sharpness.mtf50_error_cy_per_px = std::hypot(of_noise, own_error * *mtf50);
    return sharpness;
}

const char* to_word(Unfit why) noexcept {
    switch (why) {
    case Unfit::too_short:
        return "too short";
    case Unfit::too_straight:
        return "too straight";
    case Unfit::too_steep:
        return "too steep";
    case Unfit::no_contrast:
        return "no contrast";
    case Unfit::clipped:
        return "clipped";
    case Unfit::not_straight:
        return "not straight";
    case Unfit::uneven:
        return "uneven";
    case Unfit::too_narrow:
        return "too narrow";
    case Unfit::sharpened:
        return "sharpened";
    case Unfit::noisy:
        return "noisy";
    case Unfit::moved:
        return "moved";
    }
    return "";
}

const char* to_words(Unfit why) noexcept {
    switch (why) {
    case Unfit::too_short:
        return "is too short: it needs 20 px, and to shift sideways by one within the box";
    case Unfit::too_straight:
        return "is too straight: it must lean by 2° to 20°; turn chart or camera by about 5°";
    case Unfit::too_steep:
        return "is too steep: it must lean by 2° to 20°; turn chart or camera to about 5°";
    case Unfit::no_contrast:
        return "has no contrast: there is no step from dark to bright in the box";
    case Unfit::clipped:
        return "is clipped: black or white without detail; expose for greys on both sides";
    case Unfit::not_straight:
        return "is not straight: it bends within the box; take a shorter piece";
    case Unfit::uneven:
        return "is not alone: beside it the box holds another edge, texture or a gradient";
    case Unfit::too_narrow:
        return "is blurred up to the sides of the box; make the box wider";
    case Unfit::sharpened:
        return "is sharpened: brightness overshoots beside it; export without sharpening";
    case Unfit::noisy:
        return "is too noisy: MTF50 would be uncertain by over 5 %; lower the ISO or take a longer "
               "edge";
    case Unfit::moved:
        return "belongs to a frame that moved: edges of one direction are sharper than those of "
               "the other in the middle of the picture; use a tripod and the self-timer";
    }
    return "";
}

}  // namespace backrow::measure
