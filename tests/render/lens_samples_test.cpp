#include "render/passes/lens_samples.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace backrow::render;

namespace {

double distance(const LensSample& a, const LensSample& b) {
    return std::hypot(a.pupil_x - b.pupil_x, a.pupil_y - b.pupil_y);
}

}  // namespace

TEST_CASE("every fine sample lies in the cell of the pass that is nearest to it",
          "[render][property]") {
    const auto samples = make_lens_samples(37, 500, {});
    REQUIRE(samples.coarse.size() == 37);
    REQUIRE(samples.fine.size() == 500);
    REQUIRE(samples.first_fine.size() == 38);
    CHECK(samples.first_fine.front() == 0);
    CHECK(samples.first_fine.back() == 500);
    for (std::size_t pass = 0; pass < 37; ++pass)
        for (int i = samples.first_fine[pass]; i < samples.first_fine[pass + 1]; ++i) {
            const auto& fine = samples.fine[static_cast<std::size_t>(i)];
            double nearest = 10.0;
            for (const auto& coarse : samples.coarse)
                nearest = std::min(nearest, distance(fine, coarse));
            CHECK(distance(fine, samples.coarse[pass]) == Approx(nearest).margin(1e-6));
        }
}

// Each pass adds fine_share() for each of its fine samples; over all passes that must be one for
// each pass, or lamps would change their brightness.
TEST_CASE("the shares of the fine samples add up to the passes", "[render][property]") {
    for (const int fine : {0, 64, 100, 4096}) {
        const auto samples = make_lens_samples(64, fine, {});
        CHECK(samples.fine_share() * static_cast<double>(samples.fine.size()) == Approx(64.0));
    }
}

TEST_CASE("without more fine samples than passes each pass has its own", "[render][property]") {
    const auto samples = make_lens_samples(8, 0, {});
    for (std::size_t pass = 0; pass < 8; ++pass) {
        CHECK(samples.first_fine[pass + 1] - samples.first_fine[pass] == 1);
        CHECK(distance(samples.fine[pass], samples.coarse[pass]) == 0.0);
    }
}

TEST_CASE("the pixel is sampled within half a texel of its middle", "[render][property]") {
    for (const auto& sample : make_lens_samples(256, 0, {.blades = 7}).coarse) {
        CHECK(std::abs(sample.jitter_x) <= 0.5f);
        CHECK(std::abs(sample.jitter_y) <= 0.5f);
    }
}

// r² of a full disc is ½ on average. Cells add κ²/(2n) of their own, n being all samples so far, so
// the samples lack as much: all of it in the first block.
TEST_CASE("with their cells the samples of every doubling have the size of the disc",
          "[render][property]") {
    auto all = make_lens_samples(16, 0, {});
    double_up_to(all, 128, {});
    REQUIRE(all.coarse.size() == 128);
    for (const int passes : {16, 32, 64, 128}) {
        double sum = 0;
        for (const LensSample& sample : first_of(all, passes).coarse) {
            const double square = static_cast<double>(sample.pupil_x) * sample.pupil_x +
                                  static_cast<double>(sample.pupil_y) * sample.pupil_y;
            sum += square * (1 - static_cast<double>(sample.drawn_in));
        }
        const double of_cells = std::pow(cell_radius_of(passes), 2) / 2;
        CAPTURE(passes);
        CHECK(sum / passes + of_cells == Approx(0.5).epsilon(0.002));
    }
}

TEST_CASE("the first of the samples are a set of their own", "[render][property]") {
    auto all = make_lens_samples(16, 640, {});
    double_up_to(all, 100, {});
    CHECK(all.coarse.size() == 64);  // never more than asked for
    CHECK(all.fine.size() == 4 * 640);
    for (const int passes : {16, 32, 64}) {
        const auto first = first_of(all, passes);
        CHECK(static_cast<int>(first.coarse.size()) == passes);
        CHECK(first.first_fine.size() == first.coarse.size() + 1);
        CHECK(first.first_fine.back() == static_cast<int>(first.fine.size()));
        CHECK(first.fine_share() == Approx(all.fine_share()));
    }
}
