#include "measure/slanted_edge.h"

#include "measure/edge_anatomy.h"
#include "measure/edge_profile.h"
#include "measure/even_light.h"
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
constexpr double most_overshoot = 0.02;   // of the step
constexpr double most_unevenness = 0.05;  // of the step
constexpr double most_sagitta_px = 0.3;
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
        const Image<float> lit = evenly_lit(box, *line);
        const auto edge = anatomy(edge_profile(lit, *line));
        if (!edge)
            return line;
        // Where light falls off beside the edge its blur seems to reach the sides of the box.
        constexpr double least_px = 2.0;
        double reach_px = std::max({least_px, edge->core_to_px, -edge->core_from_px});
        std::optional<EdgeLine> finer;
        for (; !finer && reach_px >= least_px; reach_px /= 1.5)
            finer = centroid_edge_line(lit, *line, std::hypot(1.0, line->lean) * reach_px);
        if (!finer)
            return line;
        line = finer;
    }
    return line;
}

double across_deg(const EdgeLine& line, bool is_upright) {
    const double lean_deg = deg_from_rad(std::atan(line.lean));
    return is_upright ? -lean_deg : lean_deg > 0 ? lean_deg - 90 : lean_deg + 90;
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
    const std::vector<ProfileBin> profile = edge_profile(evenly_lit(region, *line), *line);
    const auto edge = anatomy(profile);
    if (!edge)
        return unexpected(Unfit::no_contrast);
    if (const auto why = unfit_line(*line, region.height_px()))
        return unexpected(*why);
    if (const auto why = unfit_profile(*edge))
        return unexpected(*why);

    EdgeSharpness sharpness{.is_upright = is_upright,
                            .angle_deg = deg_from_rad(std::atan(std::abs(line->lean))),
                            .across_deg = across_deg(*line, is_upright),
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
        return "is blurred up to the sides of the box, or veiled from one side; make the box wider";
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
