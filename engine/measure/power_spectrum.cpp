#include "measure/power_spectrum.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>

namespace backrow::measure {
namespace {

using std::numbers::pi;

constexpr int directions = 12;

/// A quarter of the length fades on either side as a cosine does (Tukey's window): of waves beside
/// each other not all tell something of their own then.
constexpr double fading_share = 0.25;
constexpr double independent_share = 0.6;

std::vector<double> faded_edges(int length) {
    std::vector<double> weights(static_cast<std::size_t>(length));
    for (int i = 0; i < length; ++i) {
        const double place = (i + 0.5) / length;
        const double from_edge = std::min(place, 1 - place) / fading_share;
        weights[static_cast<std::size_t>(i)] =
            from_edge < 1 ? 0.5 - 0.5 * std::cos(pi * from_edge) : 1;
    }
    return weights;
}

/// e^−2πin/length for all n.
std::vector<std::complex<double>> turns_of(int length) {
    std::vector<std::complex<double>> points(static_cast<std::size_t>(length));
    for (int n = 0; n < length; ++n)
        points[static_cast<std::size_t>(n)] = std::polar(1.0, -2 * pi * n / length);
    return points;
}

}  // namespace

double faded_mean(const Image<float>& light, const PixelBox& box) {
    const std::vector<double> across = faded_edges(box.width_px);
    const std::vector<double> down = faded_edges(box.height_px);
    double sum = 0;
    double weights = 0;
    for (int y = 0; y < box.height_px; ++y)
        for (int x = 0; x < box.width_px; ++x) {
            const double weight =
                across[static_cast<std::size_t>(x)] * down[static_cast<std::size_t>(y)];
            sum += weight * light.at(box.left + x, box.top + y);
            weights += weight;
        }
    return sum / weights;
}

PowerSpectrum power_spectrum(const Image<float>& light, const PixelBox& box, double from,
                             double to) {
    const int width = box.width_px;
    const int height = box.height_px;
    const int half = width / 2 + 1;  // the other half is that of the opposite directions
    const std::vector<double> across = faded_edges(width);
    const std::vector<double> down = faded_edges(height);
    const double mean = faded_mean(light, box);

    const auto turns_across = turns_of(width);
    std::vector<std::complex<double>> rows(static_cast<std::size_t>(half) *
                                           static_cast<std::size_t>(height));
    const auto row = [&](int wave, int y) -> std::complex<double>& {
        return rows[static_cast<std::size_t>(wave) * static_cast<std::size_t>(height) +
                    static_cast<std::size_t>(y)];
    };
    double squares = 0;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const double weight =
                across[static_cast<std::size_t>(x)] * down[static_cast<std::size_t>(y)];
            squares += weight * weight;
            const double value = weight * (light.at(box.left + x, box.top + y) - mean);
            for (int wave = 0, turn = 0; wave < half; ++wave) {
                row(wave, y) += value * turns_across[static_cast<std::size_t>(turn)];
                turn += x;
                if (turn >= width)
                    turn -= width;
            }
        }

    PowerSpectrum spectrum{.bins = {}, .step_cycles_per_px = 1.0 / std::min(width, height)};
    const auto rings = static_cast<std::size_t>((to - from) / spectrum.step_cycles_per_px) + 1;
    std::vector<SpectrumBin> bins(rings * directions);
    const auto turns_down = turns_of(height);
    for (int wave_x = 0; wave_x < half; ++wave_x)
        for (int wave_y = 0; wave_y < height; ++wave_y) {
            const double right = static_cast<double>(wave_x) / width;
            const double below =
                static_cast<double>(wave_y <= height / 2 ? wave_y : wave_y - height) / height;
            const double frequency = std::hypot(right, below);
            if (frequency < from || frequency >= to)
                continue;
            std::complex<double> sum;
            for (int y = 0, turn = 0; y < height; ++y) {
                sum += row(wave_x, y) * turns_down[static_cast<std::size_t>(turn)];
                turn += wave_y;
                if (turn >= height)
                    turn -= height;
            }
            const double direction = std::fmod(std::atan2(-below, right) + pi, pi);
            const auto ring =
                static_cast<std::size_t>((frequency - from) / spectrum.step_cycles_per_px);
            const auto sector =
                static_cast<std::size_t>(std::lround(direction / pi * directions)) % directions;
            SpectrumBin& bin = bins[ring * directions + sector];
            bin.power += std::norm(sum) / squares;
            bin.cycles_per_px += frequency;
            bin.independent += 1;
            bin.direction_rad = static_cast<double>(sector) * pi / directions;
        }
    for (SpectrumBin& bin : bins)
        if (bin.independent > 0) {
            bin.power /= bin.independent;
            bin.cycles_per_px /= bin.independent;
            bin.independent *= independent_share;
            spectrum.bins.push_back(bin);
        }
    return spectrum;
}

}  // namespace backrow::measure
