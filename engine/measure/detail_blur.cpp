#include "measure/detail_blur.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>
#include <vector>

namespace backrow::measure {
namespace {

constexpr int least_side_px = 8;
constexpr double finest_px = 0.85;   // of the searches' widths
constexpr double finer_px = 1.1892;  // from one width to the next, a quarter of an octave

Image<float> with_beside(const Image<float>& picture, const PixelBox& box, int beside_px) {
    Image<float> part(box.width_px + 2 * beside_px, box.height_px + 2 * beside_px);
    for (int y = 0; y < part.height_px(); ++y)
        for (int x = 0; x < part.width_px(); ++x)
            part.at(x, y) =
                picture.at(std::clamp(box.left + x - beside_px, 0, picture.width_px() - 1),
                           std::clamp(box.top + y - beside_px, 0, picture.height_px() - 1));
    return part;
}

/// A Gaussian, or its second derivative, from the middle outward.
std::vector<float> kernel(double width_px, bool is_second_derivative) {
    const int reach = static_cast<int>(std::ceil(4 * width_px));
    std::vector<double> values;
    double sum = 0;
    for (int i = 0; i <= reach; ++i) {
        const double square = i * i / (width_px * width_px);
        values.push_back(std::exp(-square / 2));
        sum += i == 0 ? values.back() : 2 * values.back();
    }
    std::vector<float> kernel;
    for (int i = 0; i <= reach; ++i) {
        const double square = i * i / (width_px * width_px);
        const double share = values[static_cast<std::size_t>(i)] / sum;
        kernel.push_back(static_cast<float>(
            is_second_derivative ? share * (square - 1) / (width_px * width_px) : share));
    }
    return kernel;
}

/// Along rows or columns; what reaches beyond the border repeats it.
Image<float> filtered(const Image<float>& picture, const std::vector<float>& kernel, bool down) {
    const int width = picture.width_px();
    const int height = picture.height_px();
    Image<float> result(width, height);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            float sum = kernel[0] * picture.at(x, y);
            for (int i = 1; i < static_cast<int>(kernel.size()); ++i) {
                const float before =
                    down ? picture.at(x, std::max(0, y - i)) : picture.at(std::max(0, x - i), y);
                const float after = down ? picture.at(x, std::min(height - 1, y + i))
                                         : picture.at(std::min(width - 1, x + i), y);
                sum += kernel[static_cast<std::size_t>(i)] * (before + after);
            }
            result.at(x, y) = sum;
        }
    return result;
}

/// Of two kernels, over both their halves.
double product(const std::vector<float>& one, const std::vector<float>& other) {
    double sum = 0;
    for (std::size_t i = 0; i < one.size(); ++i)
        sum += (i == 0 ? 1 : 2) * static_cast<double>(one[i]) * other[i];
    return sum;
}

/// The mean square of the Laplacian of a Gaussian, less what noise has in it.
double power(const Image<float>& part, int beside_px, double width_px, double noise) {
    const std::vector<float> smooth = kernel(width_px, false);
    const std::vector<float> second = kernel(width_px, true);
    const Image<float> across = filtered(filtered(part, second, false), smooth, true);
    const Image<float> down = filtered(filtered(part, smooth, false), second, true);
    double sum = 0;
    for (int y = beside_px; y < part.height_px() - beside_px; ++y)
        for (int x = beside_px; x < part.width_px() - beside_px; ++x) {
            const double laplacian = across.at(x, y) + down.at(x, y);
            sum += laplacian * laplacian;
        }
    const double pixels =
        static_cast<double>(part.width_px() - 2 * beside_px) * (part.height_px() - 2 * beside_px);
    const double of_noise = noise * noise *
                            (2 * product(second, second) * product(smooth, smooth) +
                             2 * product(second, smooth) * product(second, smooth));
    constexpr double least_share = 0.5;  // of detail in all of it, lest noise be taken for some
    const double all = sum / pixels;
    return all - of_noise < least_share * all ? 0 : all - of_noise;
}

/// A pixel's noise, from second differences across and down at once, which no straight edge along
/// either has: their deviation is six times that of a pixel. The lower quarter, for detail has
/// them.
double noise_of(const Image<float>& picture) {
    std::vector<float> differences;
    const auto at = [&](int x, int y) { return picture.at(x, y); };
    for (int y = 1; y + 1 < picture.height_px(); ++y)
        for (int x = 1; x + 1 < picture.width_px(); ++x)
            differences.push_back(std::abs(at(x - 1, y - 1) - 2 * at(x, y - 1) + at(x + 1, y - 1) -
                                           2 * at(x - 1, y) + 4 * at(x, y) - 2 * at(x + 1, y) +
                                           at(x - 1, y + 1) - 2 * at(x, y + 1) + at(x + 1, y + 1)));
    const auto quarter = differences.begin() + static_cast<std::ptrdiff_t>(differences.size() / 4);
    std::nth_element(differences.begin(), quarter, differences.end());
    constexpr double quarter_of_normal = 0.3186;
    return *quarter / quarter_of_normal / 6;
}

/// Powers at widths that are a quarter of an octave apart.
class Powers {
public:
    explicit Powers(std::vector<double> logs) : logs_{std::move(logs)} {}

    [[nodiscard]] double coarsest_px() const {
        return finest_px * std::pow(finer_px, static_cast<double>(logs_.size() - 1));
    }
    /// The logarithm, between widths linear in that of the width.
    [[nodiscard]] double log_at(double width_px) const {
        const double place = std::clamp(std::log(width_px / finest_px) / std::log(finer_px), 0.0,
                                        static_cast<double>(logs_.size() - 1) - 1e-9);
        const auto below = static_cast<std::size_t>(place);
        const double share = place - static_cast<double>(below);
        return logs_[below] * (1 - share) + logs_[below + 1] * share;
    }

private:
    std::vector<double> logs_;
};

/// Widths of a search, in terms of the blur that is sought.
struct Search {
    double of_blur;
    double coarser;  ///< The second width over the first.
};
constexpr std::array<Search, 3> searches{{{0.5, 1.4}, {1.0, 1.4}, {0.7, 2.0}}};

/// The variance of the blur; the widths follow it, for what is far coarser says little of it.
double variance_px2(const Powers& powers, const Search& search) {
    double fine_px = finest_px;
    double variance = 0;
    constexpr int rounds = 8;
    for (int round = 0; round < rounds; ++round) {
        const double coarse_px = std::min(fine_px * search.coarser, powers.coarsest_px());
        const double ratio = std::exp((powers.log_at(fine_px) - powers.log_at(coarse_px)) / 1.5);
        // Detail that does not fade at all from one width to the next is as coarse as the widest.
        const double widest = powers.coarsest_px() * powers.coarsest_px();
        variance =
            ratio > 1
                ? std::clamp((coarse_px * coarse_px - ratio * fine_px * fine_px) / (ratio - 1), 0.0,
                             widest)
                : widest;
        fine_px = std::clamp(search.of_blur * std::sqrt(variance), finest_px,
                             powers.coarsest_px() / search.coarser);
    }
    return variance;
}

}  // namespace

std::optional<double> detail_blur_px(const Image<float>& picture, const PixelBox& box) {
    const int side_px = std::min(box.width_px, box.height_px);
    if (side_px < least_side_px)
        return std::nullopt;
    const double coarsest_px = std::max(2.5, side_px / 4.0);
    const int beside_px = static_cast<int>(std::ceil(2 * coarsest_px));
    const Image<float> part = with_beside(picture, box, beside_px);
    // Eight bits round, evenly over a step.
    const double rounding = 1 / (255 * std::sqrt(12.0));
    const double noise = std::max(noise_of(with_beside(picture, box, 0)), rounding);
    std::vector<double> logs;
    for (double width_px = finest_px; width_px < coarsest_px * finer_px; width_px *= finer_px) {
        const double found = power(part, beside_px, width_px, noise);
        if (!(found > 0))
            return std::nullopt;
        logs.push_back(std::log(found));
    }
    const Powers powers{std::move(logs)};
    std::array<double, searches.size()> variances{};
    std::ranges::transform(searches, variances.begin(),
                           [&](const Search& search) { return variance_px2(powers, search); });
    std::ranges::sort(variances);
    // Four times the deviation is a disc's diameter; a twentieth more by calibration with rendered
    // faces, whose detail is not of all sizes. A pixel's own box has a variance of 1/12.
    constexpr double disc_from_deviation = 4.2;
    return disc_from_deviation * std::sqrt(std::max(0.0, variances[1] - 1.0 / 12));
}

}  // namespace backrow::measure
