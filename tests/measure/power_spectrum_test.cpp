#include "measure/power_spectrum.h"

#include "synthetic_edge.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace backrow;
using namespace backrow::measure;

// A mean over hundreds of waves whose powers spread as much as their mean: 10 %.
TEST_CASE("white noise has the power of its variance at all frequencies", "[measure][property]") {
    Lots lots{3};
    Image<float> noise(80, 60, 0.5f);
    for (float& light : noise.pixels())
        light += static_cast<float>(0.1 * lots.normal());
    double sum = 0;
    double weights = 0;
    for (const SpectrumBin& bin : power_spectrum(noise, {4, 3, 70, 50}, 0.1, 0.45).bins) {
        sum += bin.independent * bin.power;
        weights += bin.independent;
        CHECK(bin.cycles_per_px >= 0.1);
        CHECK(bin.cycles_per_px < 0.45);
    }
    CHECK(sum / weights == Approx(0.01).epsilon(0.1));
}

TEST_CASE("a wave stands at its frequency and direction", "[measure][property]") {
    using std::numbers::pi;
    for (const double direction_deg : {0.0, 45.0, 90.0, 150.0}) {
        const double turn = direction_deg / 180 * pi;
        Image<float> wave(64, 64);
        for (int y = 0; y < 64; ++y)
            for (int x = 0; x < 64; ++x)
                wave.at(x, y) = static_cast<float>(
                    std::sin(2 * pi * 0.25 * (x * std::cos(turn) - y * std::sin(turn))));
        const PowerSpectrum spectrum = power_spectrum(wave, {0, 0, 64, 64}, 0.05, 0.45);
        const SpectrumBin most = std::ranges::max(spectrum.bins, {}, &SpectrumBin::power);
        CAPTURE(direction_deg);
        CHECK(most.cycles_per_px == Approx(0.25).margin(0.02));
        CHECK(std::abs(std::remainder(most.direction_rad - turn, pi)) < 0.05);
    }
}
