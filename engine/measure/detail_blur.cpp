#include "measure/detail_blur.h"

#include "measure/power_spectrum.h"

#include "base/colour.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <vector>

namespace backrow::measure {
namespace {

using std::numbers::pi;

constexpr int least_box_px = 16;

/// Waves that are looked at, their tried_lengths against the knee's: longer ones are the thing's
/// own build. They begin twice as long for strokes that are longer than these.
constexpr double longest_of_knee = 1.0;
constexpr double longest_for_strokes = 2.2;
constexpr double finest_cycles_per_px = 0.46;

/// Blurs that are tried go to this share of the knee, strokes at last to twice of it.
constexpr double most_of_knee = 0.9;
constexpr double most_stroke_of_knee = 2.0;

/// No lens and no hand draws discs and strokes so evenly that waves vanish altogether between their
/// zeros: so much of what is left there has no zeros.
constexpr double uneven_share_of_disc = 0.15;
constexpr double uneven_share_of_stroke = 0.02;

/// And of every wave so much is left: parts of a thing lie nearer to the plane of focus.
constexpr double left_by_disc = 0.005;

/// Detail is no noise: neighbouring waves know of each other, and the evidence of all of them is
/// less than their number says. By calibration with rendered faces.
constexpr double evidence_share = 0.35;

/// Before anything is seen: how often frames are smeared, and how much oftener focus is right than
/// off by any one of the lengths that are tried.
constexpr double strokes_share = 0.03;
constexpr double oftener_right = 2;
constexpr double about_right_px = 1;

constexpr int angles = 12;
constexpr int between_discs = 3;

/// Power, how it differs by direction in two terms, and its fall.
constexpr std::size_t terms = 4;
using Terms = std::array<double, terms>;
using TermPairs = std::array<Terms, terms>;

struct Tried {
    double disc_px = 0;
    double stroke_px = 0;
    double turn_rad = 0;
    double log_probability = -std::numeric_limits<double>::infinity();

    /// A disc's variance along any axis is d²/16, a stroke's along its own L²/12.
    [[nodiscard]] double total_px() const {
        return std::sqrt(disc_px * disc_px + 16 * stroke_px * stroke_px / 24);
    }
    [[nodiscard]] bool is_mainly_stroke() const {
        return stroke_px * stroke_px / 12 > disc_px * disc_px / 16;
    }
};

double squared(double value) {
    return value * value;
}

/// What is left of a wave's power behind a disc: (2 J₁(πfd)/πfd)², which falls as 4/π(πfd)³.
double left_of_disc(double cycles) {
    const double x = pi * cycles;
    const double even = x < 1e-4 ? 1 : squared(2 * ::j1(x) / x);
    return ((1 - uneven_share_of_disc) * even + uneven_share_of_disc / (1 + pi / 4 * x * x * x) +
            left_by_disc) /
           (1 + left_by_disc);
}

double sinc_squared(double cycles) {
    const double x = pi * cycles;
    return std::abs(x) < 1e-4 ? 1 : squared(std::sin(x) / x);
}

/// Behind a stroke along the wave: sinc²(fL), which falls as 1/2(πfL)².
double left_of_stroke(double cycles) {
    return (1 - uneven_share_of_stroke) * sinc_squared(cycles) +
           uneven_share_of_stroke / (1 + 2 * squared(pi * cycles));
}

/// What a blur leaves of each wave, and of those beside it that the box does not tell apart.
using Left = std::vector<std::array<double, 3>>;
constexpr std::array beside{-0.7, 0.0, 0.7};
constexpr std::array beside_weights{0.25, 0.5, 0.25};

/// Solves with a matrix that is positive definite, and gives the logarithm of its determinant.
double solve_terms(TermPairs matrix, Terms& right) {
    double log_determinant = 0;
    for (std::size_t i = 0; i < terms; ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
            double sum = matrix[i][j];
            for (std::size_t k = 0; k < j; ++k)
                sum -= matrix[i][k] * matrix[j][k];
            matrix[i][j] = i == j ? std::sqrt(std::max(sum, 1e-300)) : sum / matrix[j][j];
        }
        log_determinant += 2 * std::log(matrix[i][i]);
    }
    for (std::size_t i = 0; i < terms; ++i) {
        for (std::size_t k = 0; k < i; ++k)
            right[i] -= matrix[i][k] * right[k];
        right[i] /= matrix[i][i];
    }
    for (std::size_t i = terms; i-- > 0;) {
        for (std::size_t k = i + 1; k < terms; ++k)
            right[i] -= matrix[k][i] * right[k];
        right[i] /= matrix[i][i];
    }
    return log_determinant;
}

/// A spectrum against what a blurred thing would have.
class Likelihood {
public:
    Likelihood(PowerSpectrum spectrum, double noise, const SharpDetail& sharp)
        : spectrum_{std::move(spectrum)}, noise_{noise}, expected_{0, sharp.more_across, 0,
                                                                   sharp.fall},
          precision_{1e-4, 1 / squared(0.35), 1 / squared(0.3), 1 / squared(sharp.fall_error)} {
        double sum = 0;
        for (const SpectrumBin& bin : spectrum_.bins) {
            const double across = bin.cycles_per_px * std::cos(bin.direction_rad);
            const double down = bin.cycles_per_px * std::sin(bin.direction_rad);
            pixel_.push_back(sinc_squared(across) * sinc_squared(down));
            rows_.push_back({1, std::cos(2 * bin.direction_rad), std::sin(2 * bin.direction_rad),
                             -0.5 * std::log(1 + squared(bin.cycles_per_px * sharp.knee_px))});
            sum += std::max(bin.power - noise_, 0.1 * noise_);
        }
        expected_[0] = std::log(sum / static_cast<double>(rows_.size())) + 2;
        for (double& one : precision_)
            one /= evidence_share;
    }

    [[nodiscard]] Left behind_disc(double disc_px) const {
        return left_of_waves([&](double cycles, double) { return left_of_disc(cycles * disc_px); });
    }
    [[nodiscard]] Left behind_stroke(double stroke_px, double turn_rad) const {
        return left_of_waves([&](double cycles, double direction_rad) {
            constexpr std::array turns{-pi / 36, 0.0, pi / 36};
            double left = 0;
            for (const double turn : turns)
                left +=
                    left_of_stroke(cycles * stroke_px * std::cos(direction_rad + turn - turn_rad)) /
                    turns.size();
            return left;
        });
    }

    /// The logarithm of the probability of what was found, all terms integrated out.
    [[nodiscard]] double of(const Left& disc, const Left& stroke) const {
        std::vector<double> left(rows_.size());
        for (std::size_t i = 0; i < rows_.size(); ++i)
            for (std::size_t k = 0; k < beside.size(); ++k)
                left[i] += beside_weights[k] * disc[i][k] * stroke[i][k] * pixel_[i];
        Terms value = expected_;
        constexpr int rounds = 4;
        for (int round = 0; round < rounds; ++round) {
            Terms step{};
            const TermPairs matrix = normal_equations(value, left, step);
            static_cast<void>(solve_terms(matrix, step));
            for (std::size_t i = 0; i < terms; ++i)
                value[i] += std::clamp(step[i], -2.0, 2.0);
        }
        Terms unused{};
        const double volume = solve_terms(normal_equations(value, left, unused), unused);
        double log = -volume / 2;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const SpectrumBin& bin = spectrum_.bins[i];
            const double power = content(value, i) * left[i] + noise_;
            log -= bin.independent * (std::log(power) + bin.power / power);
        }
        for (std::size_t i = 0; i < terms; ++i)
            log -= precision_[i] * squared(value[i] - expected_[i]) / 2;
        return evidence_share * log;
    }

private:
    [[nodiscard]] double content(const Terms& value, std::size_t i) const {
        double log = 0;
        for (std::size_t k = 0; k < terms; ++k)
            log += value[k] * rows_[i][k];
        return std::exp(std::clamp(log, -40.0, 40.0));
    }

    template <class OfWave>
    [[nodiscard]] Left left_of_waves(const OfWave& of_wave) const {
        Left left;
        for (const SpectrumBin& bin : spectrum_.bins) {
            left.emplace_back();
            for (std::size_t k = 0; k < beside.size(); ++k)
                left.back()[k] =
                    of_wave(std::abs(bin.cycles_per_px + beside[k] * spectrum_.step_cycles_per_px),
                            bin.direction_rad);
        }
        return left;
    }

    /// Fisher's scoring: power has the spread of its own mean.
    [[nodiscard]] TermPairs normal_equations(const Terms& value, const std::vector<double>& left,
                                             Terms& right) const {
        TermPairs matrix{};
        for (std::size_t i = 0; i < terms; ++i) {
            matrix[i][i] = precision_[i];
            right[i] = -precision_[i] * (value[i] - expected_[i]);
        }
        for (std::size_t n = 0; n < rows_.size(); ++n) {
            const SpectrumBin& bin = spectrum_.bins[n];
            const double of_thing = content(value, n) * left[n];
            const double power = of_thing + noise_;
            const double weight = bin.independent * squared(of_thing / power);
            const double off =
                std::clamp((bin.power - power) / std::max(of_thing, 1e-300), -1.0, 3.0);
            for (std::size_t i = 0; i < terms; ++i) {
                right[i] += weight * off * rows_[n][i];
                for (std::size_t j = 0; j <= i; ++j)
                    matrix[i][j] += weight * rows_[n][i] * rows_[n][j];
            }
        }
        return matrix;
    }

    PowerSpectrum spectrum_;
    double noise_;
    Terms expected_;
    Terms precision_;
    std::vector<double> pixel_{};  ///< What a pixel's own box leaves.
    std::vector<Terms> rows_{};
};

/// From nothing to the most, a fifth more each time.
std::vector<double> tried_lengths(double least_px, double most_px) {
    constexpr double more = 1.22;
    std::vector<double> all_px{0};
    for (double length = least_px; length <= most_px;
         length = std::max(length * more, length + 0.4))
        all_px.push_back(length);
    return all_px;
}

double turn_of(int angle) {
    return angle * pi / angles;
}

/// All discs and strokes; of the strokes on a blurred ground only those in directions in which
/// strokes alone have the best grounds, for these tell the direction.
std::vector<Tried> try_all(const Likelihood& likelihood, const std::vector<double>& discs_px,
                           const std::vector<double>& strokes_px, const std::vector<int>& turns) {
    std::vector<Tried> all;
    const double of_stroke =
        std::log(strokes_share / (angles * static_cast<double>(strokes_px.size() - 1)));
    const auto add = [&](const Left& disc, const Left& stroke, const Tried& tried) {
        all.push_back(tried);
        all.back().log_probability =
            likelihood.of(disc, stroke) +
            (tried.disc_px < about_right_px ? std::log(oftener_right) : 0) +
            (tried.stroke_px > 0 ? of_stroke : std::log((1 - strokes_share) / between_discs));
        return all.back().log_probability;
    };
    const Left all_left = likelihood.behind_disc(0);
    // Discs alone so closely that none between two of them looks like a stroke.
    std::vector<Left> discs;
    for (std::size_t i = 0; i < discs_px.size(); ++i)
        for (int part = 0; part < (i + 1 < discs_px.size() ? between_discs : 1); ++part) {
            const double next_px = discs_px[std::min(i + 1, discs_px.size() - 1)];
            const double disc_px = discs_px[i] + part * (next_px - discs_px[i]) / between_discs;
            const Left disc = likelihood.behind_disc(disc_px);
            add(disc, all_left, {.disc_px = disc_px});
            if (part == 0)
                discs.push_back(disc);
        }
    struct Turn {
        double most = -std::numeric_limits<double>::infinity();
        double turn_rad = 0;
        std::vector<Left> strokes{};
    };
    std::vector<Turn> best;
    for (const int angle : turns) {
        Turn turn{.turn_rad = turn_of(angle)};
        for (std::size_t i = 1; i < strokes_px.size(); ++i) {
            turn.strokes.push_back(likelihood.behind_stroke(strokes_px[i], turn.turn_rad));
            turn.most =
                std::max(turn.most, add(all_left, turn.strokes.back(),
                                        {.stroke_px = strokes_px[i], .turn_rad = turn.turn_rad}));
        }
        best.push_back(std::move(turn));
    }
    std::ranges::sort(best, std::greater{}, &Turn::most);
    constexpr std::size_t directions_on_discs = 3;
    best.resize(std::min(best.size(), directions_on_discs));
    for (const Turn& turn : best)
        for (std::size_t disc = 1; disc < discs_px.size(); ++disc)
            for (std::size_t i = 1; i < strokes_px.size(); ++i)
                add(discs[disc], turn.strokes[i - 1],
                    {.disc_px = discs_px[disc],
                     .stroke_px = strokes_px[i],
                     .turn_rad = turn.turn_rad});
    return all;
}

/// Under which so much of the probability lies, between what was tried linearly.
double quantile(const std::vector<Tried>& sorted, const std::vector<double>& probability,
                double share) {
    double below = 0;
    double last = 0;
    double last_below = 0;
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        const double middle = below + probability[i] / 2;
        if (middle >= share && middle > last_below)
            return last +
                   (sorted[i].total_px() - last) * (share - last_below) / (middle - last_below);
        last = sorted[i].total_px();
        last_below = middle;
        below += probability[i];
    }
    return last;
}

DetailBlur told_by(std::vector<Tried> all, double most_disc_px, double most_stroke_px) {
    std::ranges::sort(all, {}, &Tried::total_px);
    const double most = std::ranges::max(all, {}, &Tried::log_probability).log_probability;
    std::vector<double> probability;
    double sum = 0;
    for (const Tried& tried : all) {
        probability.push_back(std::exp(tried.log_probability - most));
        sum += probability.back();
    }
    DetailBlur blur;
    double right = 0;
    double up = 0;
    double at_end = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        probability[i] /= sum;
        if (all[i].is_mainly_stroke()) {
            blur.moved += probability[i];
            right += probability[i] * std::cos(2 * all[i].turn_rad);
            up += probability[i] * std::sin(2 * all[i].turn_rad);
        }
        if (all[i].disc_px >= most_disc_px || all[i].stroke_px >= most_stroke_px)
            at_end += probability[i];
    }
    blur.direction_deg = std::atan2(up, right) / 2 * 180 / pi;
    blur.direction_sure = blur.moved > 0 ? std::hypot(right, up) / blur.moved : 0;
    blur.is_beyond = at_end > 0.5;
    blur.px = quantile(all, probability, 0.5);
    blur.from_px = quantile(all, probability, 0.05);
    blur.to_px = quantile(all, probability, 0.95);
    return blur;
}

PowerSpectrum only_from(const PowerSpectrum& spectrum, double cycles_per_px) {
    PowerSpectrum part{.bins = {}, .step_cycles_per_px = spectrum.step_cycles_per_px};
    std::ranges::copy_if(spectrum.bins, std::back_inserter(part.bins), [&](const SpectrumBin& bin) {
        return bin.cycles_per_px >= cycles_per_px;
    });
    return part;
}

/// The largest disc that leaves a slope as steep as the steepest here: behind a disc of diameter d
/// no step is steeper than its chord against its area, 4/πd of the step. A spectrum of faces has
/// dents that a large disc would leave as well; edges do not.
///
/// noise  variance of a pixel, in light
double largest_disc_px(const Image<float>& light, const PixelBox& box, double noise) {
    // The very few may be specks. A slope of noise, squared, is larger than t variances in e^−t of
    // all places.
    constexpr double few = 0.0025;
    const double of_noise = -std::log(few);
    // Steps had more range before they were blurred: by calibration, on rendered faces to 1.5.
    constexpr double more_range = 1.6;
    std::vector<float> lights;
    std::vector<float> slopes2;
    for (int y = box.top + 1; y + 1 < box.top + box.height_px; ++y)
        for (int x = box.left + 1; x + 1 < box.left + box.width_px; ++x) {
            const float across = (light.at(x + 1, y) - light.at(x - 1, y)) / 2;
            const float down = (light.at(x, y + 1) - light.at(x, y - 1)) / 2;
            lights.push_back(light.at(x, y));
            slopes2.push_back(across * across + down * down);
        }
    const auto at = [](std::vector<float>& values, double share) {
        const auto place = values.begin() + static_cast<std::ptrdiff_t>(
                                                share * static_cast<double>(values.size() - 1));
        std::nth_element(values.begin(), place, values.end());
        return static_cast<double>(*place);
    };
    const double range = at(lights, 1 - few) - at(lights, few);
    const double slope2 = at(slopes2, 1 - few) - of_noise * noise;
    return slope2 > 0 ? more_range * range * 4 / (pi * std::sqrt(slope2))
                      : std::numeric_limits<double>::infinity();
}

/// The mean over waves from one length to another.
double mean_power(const PowerSpectrum& spectrum, double longest_px, double shortest_px) {
    double sum = 0;
    double weights = 0;
    for (const SpectrumBin& bin : spectrum.bins)
        if (bin.cycles_per_px * longest_px >= 1 && bin.cycles_per_px * shortest_px < 1) {
            sum += bin.independent * bin.power;
            weights += bin.independent;
        }
    return weights > 0 ? sum / weights : 0;
}

}  // namespace

std::optional<DetailBlur> detail_blur(const Image<float>& picture, const PixelBox& box,
                                      const SharpDetail& sharp, double noise_variance) {
    if (std::min(box.width_px, box.height_px) < least_box_px)
        return std::nullopt;
    Image<float> light = picture;
    for (float& one : light.pixels())
        one = linear_from_srgb(std::clamp(one, 0.0f, 1.0f));
    const double mean = faded_mean(light, box);
    // Eight bits round, evenly over a step. Either is so much light at the mean.
    const double rounding = 1.0 / (255 * 255 * 12);
    const auto shown = srgb_from_linear(static_cast<float>(mean));
    const double slope =
        (linear_from_srgb(shown + 0.005f) - linear_from_srgb(std::max(0.0f, shown - 0.005f))) /
        0.01;
    const double noise = slope * slope * std::max(noise_variance, rounding);
    const double from = 1 / (longest_of_knee * sharp.knee_px);
    const double least = 1.5 / std::min(box.width_px, box.height_px);
    const PowerSpectrum spectrum =
        power_spectrum(light, box, std::max(least, from / longest_for_strokes * longest_of_knee),
                       finest_cycles_per_px);
    const PowerSpectrum fine = only_from(spectrum, std::max(least, from));
    const double of_build =
        mean_power(spectrum, longest_for_strokes * sharp.knee_px, sharp.knee_px);
    const double of_detail = mean_power(spectrum, sharp.knee_px, 0.6 * sharp.knee_px);
    constexpr double clear_of_noise = 10;
    if (fine.bins.size() < 2 * terms || std::max(of_build, of_detail) < clear_of_noise * noise)
        return std::nullopt;

    std::vector<double> discs_px = tried_lengths(0.5, most_of_knee * sharp.knee_px);
    const double most_disc_px = discs_px.back();
    const double largest_px = largest_disc_px(light, box, noise);
    std::erase_if(discs_px, [&](double disc_px) { return disc_px > largest_px; });
    std::vector<double> strokes_px = tried_lengths(1.5, most_of_knee * sharp.knee_px);
    std::vector<int> turns;
    for (int angle = 0; angle < angles; ++angle)
        turns.push_back(angle);
    const Likelihood likelihood{fine, noise, sharp};
    DetailBlur blur =
        told_by(try_all(likelihood, discs_px, strokes_px, turns), most_disc_px, strokes_px.back());
    // A long stroke leaves nothing of the waves that were looked at along it.
    constexpr double surely = 0.9;
    if (blur.moved > surely) {
        const int along = static_cast<int>(std::lround(blur.direction_deg / 180 * angles)) + angles;
        const std::vector<double> longer_px =
            tried_lengths(1.5, most_stroke_of_knee * sharp.knee_px);
        blur = told_by(try_all(Likelihood{spectrum, noise, sharp}, discs_px, longer_px,
                               {(along - 1) % angles, along % angles, (along + 1) % angles}),
                       most_disc_px, longer_px.back());
    }
    // What falls so far already here is what is left between the zeros of a larger disc.
    constexpr double most_fall = 14;
    blur.is_beyond |= of_build > most_fall * of_detail;
    return blur;
}

}  // namespace backrow::measure
