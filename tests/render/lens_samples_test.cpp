#include "render/passes/lens_samples.h"

#include "optics/contrast/mtf.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

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

// Whatever is a little out of focus is blurred by a disc and by the texel, so the contrast left of
// lines is [DIFFRACTION]'s 2 J₁(x)/x of the disc times sin(x)/x of the texel's sides. Tolerance: a
// third of what points by lot would be off on average, 1/√(2n).
TEST_CASE("through few passes a small blur leaves edges as sharp as it does through many",
          "[render][property]") {
    const auto root_mean_square_off = [](const std::vector<LensSample>& passes) {
        double squares = 0;
        int cases = 0;
        for (const double radius_texels : {0.4, 0.8, 1.5, 2.5})
            for (int direction = 0; direction < 8; ++direction) {
                const double angle = direction * std::numbers::pi / 8 + 0.09;
                const double x = std::cos(angle), y = std::sin(angle);
                const auto left = [&](double cycles) {
                    return backrow::optics::disc_otf(2 * radius_texels * cycles) *
                           backrow::optics::box_otf(cycles * x) *
                           backrow::optics::box_otf(cycles * y);
                };
                double cycles = 0.05;
                while (left(cycles) > 0.5)
                    cycles += 0.01;
                std::complex<double> sum = 0;
                for (const LensSample& pass : passes)
                    sum +=
                        std::polar(1.0, 2 * std::numbers::pi * cycles *
                                            ((radius_texels * pass.pupil_x + pass.jitter_x) * x +
                                             (radius_texels * pass.pupil_y + pass.jitter_y) * y));
                squares +=
                    std::pow(std::abs(sum) / static_cast<double>(passes.size()) - left(cycles), 2);
                ++cases;
            }
        return std::sqrt(squares / cases);
    };
    for (const int passes : {32, 64, 128, 200, 256}) {
        CAPTURE(passes);
        CHECK(root_mean_square_off(make_lens_samples(passes, 0, {}).coarse) <
              1 / std::sqrt(2.0 * passes) / 3);
    }
    auto doubled = make_lens_samples(32, 0, {});
    double_up_to(doubled, 128, {});
    for (const int passes : {64, 128}) {
        CAPTURE(passes);
        CHECK(root_mean_square_off(first_of(doubled, passes).coarse) <
              1 / std::sqrt(2.0 * passes) / 3);
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
