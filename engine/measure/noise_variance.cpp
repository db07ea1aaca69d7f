#include "measure/noise_variance.h"

#include "measure/power_spectrum.h"

#include <algorithm>
#include <cstddef>

namespace backrow::measure {
namespace {

constexpr std::size_t smooth_part = 10;

struct Square {
    double total = 0;
    double power = 0;  ///< Of the waves that tell of noise.
};

Square square_of(const Image<float>& picture) {
    constexpr double step = 1.0 / noise_square_px;
    constexpr double from = 2.5 * step;
    constexpr double to = 3.5 * step;
    const PowerSpectrum spectrum =
        power_spectrum(picture, {0, 0, noise_square_px, noise_square_px}, step / 2, 0.5);
    Square square;
    double weights = 0;
    for (const SpectrumBin& bin : spectrum.bins) {
        square.total += bin.independent * bin.power;
        if (bin.cycles_per_px < from || bin.cycles_per_px >= to)
            continue;
        square.power += bin.independent * bin.power;
        weights += bin.independent;
    }
    square.power /= weights;
    return square;
}

}  // namespace

double noise_variance(const std::vector<Image<float>>& squares) {
    std::vector<Square> all;
    all.reserve(squares.size());
    for (const Image<float>& square : squares)
        all.push_back(square_of(square));
    std::ranges::sort(all, {}, &Square::total);
    all.resize((all.size() + smooth_part - 1) / smooth_part);
    double variance = 0;
    for (const Square& square : all)
        variance += square.power / static_cast<double>(all.size());
    return variance;
}

}  // namespace backrow::measure
