#include "measure/slanted_edge.h"

#include "synthetic_edge.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::measure;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

EdgeSharpness sharpness_of(const Image<float>& picture) {
    const auto edge = measure_edge(picture, {0, 0, picture.width_px(), picture.height_px()});
    INFO((edge ? "measured" : to_words(edge.error())));
    REQUIRE(edge);
    return *edge;
}

double mtf_at(const EdgeSharpness& edge, double cy_per_px) {
    return edge.mtf[static_cast<std::size_t>(std::lround(cy_per_px / mtf_step_cy_per_px))].mtf;
}

}  // namespace

// Truth: the transform of the blur times that of the pixel, in closed form (synthetic_edge.h).
// Tolerance: what is asked of a measured lens, 2 %. Noise of 2 % of the step leaves a standard
// error of up to 1 % at the sharpest of these, so one of them may be beyond, if it tells so itself:
// by no more than three of the errors that it tells.
TEST_CASE("MTF50 of edges of known blur, drawn by lot", "[measure][property]") {
    Lots lots{15};
    int beyond = 0;
    constexpr int edges = 240;
    for (int i = 0; i < edges; ++i) {
        SyntheticEdge edge;
        edge.angle_deg = lots.between(3, 15) * (lots.between(0, 1) < 0.5 ? -1 : 1);
        const bool disc = lots.between(0, 1) < 0.4;
        const double sigma_px = 0.3 * std::pow(8 / 0.3, lots.between(0, 1));
        if (disc)
            edge.disc_px = std::max(1.0, 4 * sigma_px);
        else
            edge.sigma_px = sigma_px;
        edge.noise = lots.between(0, 0.02);
        edge.is_level = lots.between(0, 1) < 0.5;
        edge.is_srgb_8_bit = lots.between(0, 1) < 0.5;
        edge.width_px = static_cast<int>(60 + 12 * sigma_px);
        edge.height_px = 200;
        edge.offset_px = lots.between(-3, 3);
        edge.seed = static_cast<std::uint64_t>(i);
        if (lots.between(0, 1) < 0.5)
            std::swap(edge.dark, edge.bright);
        const auto found = sharpness_of(drawn(edge));
        const double truth = mtf50_of(edge);
        CAPTURE(i, edge.angle_deg, edge.sigma_px, edge.disc_px, edge.noise, edge.is_level,
                edge.is_srgb_8_bit, truth, found.mtf50_cy_per_px, found.mtf50_error_cy_per_px);
        const double off = found.mtf50_cy_per_px / truth - 1;
        beyond += std::abs(off) > 0.02;
        CHECK(std::abs(off) * truth < 3 * found.mtf50_error_cy_per_px);
        CHECK_THAT(found.angle_deg, WithinAbs(std::abs(edge.angle_deg), 0.1));
        CHECK(found.is_upright != edge.is_level);
    }
    CHECK(beyond <= 1);
}

// Source: [VIGRA], libvigraimpex 1.11.1's slantedEdgeMTF with what it takes for granted, run on
// these edges in November 2026 apart from this project, and read off between its frequencies along
// straight lines: 128 × 160 pixels, 20 to 220, at .1 to .5 cycles a pixel. Ours must agree with it
// and with the truth. Tolerances: 0.01, by which that library itself is off the truth, the more so
// the broader and the steeper the edge; and 0.002, a tenth of what noise leaves uncertain.
TEST_CASE("MTFs of sharp edges agree with those of another implementation",
          "[measure][published]") {
    struct Row {
        SyntheticEdge edge;
        std::array<double, 5> theirs;
    };
    const std::vector<Row> rows{
        {{.angle_deg = 3, .sigma_px = 0.3}, {0.9662, 0.8709, 0.7305, 0.5675, 0.4045}},
        {{.angle_deg = 5, .sigma_px = 0.3}, {0.9662, 0.8712, 0.7313, 0.5691, 0.4075}},
        {{.angle_deg = 8, .sigma_px = 0.3}, {0.9661, 0.8707, 0.7302, 0.5669, 0.4036}},
        {{.angle_deg = 3, .sigma_px = 0.5}, {0.9364, 0.7685, 0.5514, 0.3440, 0.1844}},
        {{.angle_deg = 5, .sigma_px = 0.5}, {0.9366, 0.7691, 0.5527, 0.3461, 0.1876}},
        {{.angle_deg = 8, .sigma_px = 0.5}, {0.9364, 0.7686, 0.5516, 0.3441, 0.1840}},
        {{.angle_deg = 3, .sigma_px = 0.7}, {0.8936, 0.6377, 0.3623, 0.1628, 0.0568}},
        {{.angle_deg = 5, .sigma_px = 0.7}, {0.8939, 0.6385, 0.3636, 0.1645, 0.0586}},
        {{.angle_deg = 8, .sigma_px = 0.7}, {0.8939, 0.6385, 0.3633, 0.1635, 0.0569}},
        {{.angle_deg = 3, .sigma_px = 1}, {0.8103, 0.4313, 0.1504, 0.0340, 0.0048}},
        {{.angle_deg = 5, .sigma_px = 1}, {0.8108, 0.4323, 0.1513, 0.0346, 0.0051}},
        {{.angle_deg = 8, .sigma_px = 1}, {0.8113, 0.4338, 0.1522, 0.0348, 0.0049}},
        {{.angle_deg = 5, .disc_px = 1.5}, {0.9566, 0.8355, 0.6613, 0.4673, 0.2862}},
        {{.angle_deg = 11, .disc_px = 1.5}, {0.9566, 0.8360, 0.6627, 0.4698, 0.2903}},
        {{.angle_deg = 5, .disc_px = 2.5}, {0.9101, 0.6766, 0.3882, 0.1399, 0.0191}},
        {{.angle_deg = 11, .disc_px = 2.5}, {0.9099, 0.6766, 0.3878, 0.1388, 0.0195}},
        {{.angle_deg = 5, .sigma_px = 0.5, .is_point_sampled = true},
         {0.9517, 0.8204, 0.6402, 0.4519, 0.2879}},
    };
    for (auto [edge, theirs] : rows) {
        edge.width_px = 128;
        edge.height_px = 160;
        edge.dark = 20.0 / 255;
        edge.bright = 220.0 / 255;
        const auto found = sharpness_of(drawn(edge));
        for (std::size_t i = 0; i < theirs.size(); ++i) {
            const double cy_per_px = 0.1 * static_cast<double>(i + 1);
            CAPTURE(edge.angle_deg, edge.sigma_px, edge.disc_px, cy_per_px);
            CHECK_THAT(mtf_at(found, cy_per_px), WithinAbs(theirs[i], 0.01));
            CHECK_THAT(mtf_at(found, cy_per_px), WithinAbs(mtf_of(edge, cy_per_px), 0.002));
        }
    }
}

// At a slant of 1 in 4 all rows reach the same four places within a pixel, and bins of a quarter
// hold one of them each: whoever takes out a filtering that has not been done is 2 % off.
TEST_CASE("slants at which pixels reach few phases are measured as well", "[measure][property]") {
    for (const double one_in : {4.0, 4.5, 5.0, 5.5, 6.0, 7.0, 8.0, 9.0, 10.0, 16.0}) {
        SyntheticEdge edge{.sigma_px = 0.3};
        edge.angle_deg = std::atan(1 / one_in) * 180 / std::numbers::pi;
        CAPTURE(one_in);
        CHECK_THAT(sharpness_of(drawn(edge)).mtf50_cy_per_px, WithinRel(mtf50_of(edge), 0.01));
    }
}

// Of 200 edges the errors over their standard errors have variance 1, within its own standard error
// of √(2/200), three of them; the half per cent that is told of the method adds a fifth to them.
TEST_CASE("the error that an edge tells of itself is that which it has", "[measure][property]") {
    double squares = 0;
    constexpr int edges = 200;
    for (int i = 0; i < edges; ++i) {
        SyntheticEdge edge{.width_px = 60, .height_px = 100, .sigma_px = 1, .noise = 0.02};
        edge.seed = static_cast<std::uint64_t>(i);
        const auto found = sharpness_of(drawn(edge));
        squares +=
            std::pow((found.mtf50_cy_per_px - mtf50_of(edge)) / found.mtf50_error_cy_per_px, 2);
    }
    CHECK_THAT(squares / edges, WithinAbs(1, 0.3 + 0.2));
}

// Light falls off by a fifth across the box, and by three tenths along the edge, whichever way: a
// corner of a fast lens. Tolerance: 1 %, half of what is asked of any edge.
TEST_CASE("an edge in falling light is as sharp as in even light", "[measure][property]") {
    for (const double sigma_px : {0.7, 2.0, 4.0})
        for (const double across_px : {-0.002, 0.002})
            for (const double along_px : {-0.0015, 0.0, 0.0015})
                for (const double noise : {0.0, 0.005}) {
                    const SyntheticEdge edge{
                        .width_px = 100, .height_px = 200, .sigma_px = sigma_px, .noise = noise};
                    Image<float> lit = drawn(edge);
                    for (int y = 0; y < lit.height_px(); ++y)
                        for (int x = 0; x < lit.width_px(); ++x)
                            lit.at(x, y) *=
                                static_cast<float>(1 + across_px * (x - 50) + along_px * (y - 100));
                    CAPTURE(sigma_px, across_px, along_px, noise);
                    CHECK_THAT(sharpness_of(lit).mtf50_cy_per_px, WithinRel(mtf50_of(edge), 0.01));
                }
}

TEST_CASE("which way is across an edge is told with its sign", "[measure][property]") {
    for (const double angle_deg : {-12.0, -5.0, 5.0, 12.0}) {
        SyntheticEdge edge{.angle_deg = angle_deg, .sigma_px = 1};
        CHECK_THAT(sharpness_of(drawn(edge)).across_deg, WithinAbs(-angle_deg, 0.05));
        edge.is_level = true;
        CHECK_THAT(sharpness_of(drawn(edge)).across_deg,
                   WithinAbs(angle_deg + (angle_deg > 0 ? -90 : 90), 0.05));
    }
}

TEST_CASE("what is unfit is refused, and why", "[measure][property]") {
    const auto why_not = [](const Image<float>& picture) {
        const auto edge = measure_edge(picture, {0, 0, picture.width_px(), picture.height_px()});
        return std::string{edge ? "measured" : to_word(edge.error())};
    };
    const SyntheticEdge good{.sigma_px = 1};
    CHECK(why_not(drawn(good)) == "measured");
    const auto with = [&](auto change) {
        SyntheticEdge edge = good;
        change(edge);
        return why_not(drawn(edge));
    };
    CHECK(with([](auto& edge) { edge.angle_deg = 0.5; }) == "too straight");
    CHECK(with([](auto& edge) { edge.angle_deg = 0; }) == "too straight");
    CHECK(with([](auto& edge) {
              edge.angle_deg = 25;
              edge.height_px = 80;
          }) == "too steep");
    CHECK(with([](auto& edge) { edge.height_px = 16; }) == "too short");
    CHECK(with([](auto& edge) {
              edge.height_px = 22;
              edge.angle_deg = 2.2;
          }) == "too short");
    CHECK(with([](auto& edge) { edge.bright = edge.dark; }) == "no contrast");
    CHECK(with([](auto& edge) {
              edge.bright = edge.dark;
              edge.noise = 1;
          }) == "no contrast");
    CHECK(why_not(
              drawn({.height_px = 60, .sigma_px = 1, .dark = 0.3, .bright = 0.7, .noise = 0.2})) ==
          "noisy");
    CHECK(with([](auto& edge) { edge.sigma_px = 16; }) == "too narrow");
    CHECK(with([](auto& edge) { edge.dark = 0; }) == "clipped");
    CHECK(with([](auto& edge) { edge.bright = 1; }) == "clipped");
    // Noise alone, all over the range.
    Lots lots{3};
    Image<float> noise(60, 60);
    for (float& light : noise.pixels())
        light = static_cast<float>(lots.between(0.1, 0.9));
    CHECK(why_not(noise) != "measured");

    // An unsharp mask: the edge, and half as much again of what a blur takes from it.
    const Image<float> sharp = drawn(good);
    const Image<float> blurred = drawn({.sigma_px = 2});
    Image<float> masked = sharp;
    for (std::size_t i = 0; i < masked.pixels().size(); ++i)
        masked.pixels()[i] += 0.5f * (sharp.pixels()[i] - blurred.pixels()[i]);
    CHECK(why_not(masked) == "sharpened");

    // A stripe: two edges.
    Image<float> stripe = drawn({.offset_px = -15, .sigma_px = 1});
    const Image<float> other = drawn({.offset_px = 15, .sigma_px = 1});
    for (std::size_t i = 0; i < stripe.pixels().size(); ++i)
        stripe.pixels()[i] -= other.pixels()[i] - 0.1f;
    CHECK(why_not(stripe) != "measured");

    // A bow of 2 px: the arc of a circle.
    Image<float> bow(80, 160);
    for (int y = 0; y < 160; ++y)
        for (int x = 0; x < 80; ++x) {
            const double along = (y - 80) / 80.0;
            const double off = x - 40 - 0.09 * (y - 80) - 2 * (1 - along * along);
            bow.at(x, y) = static_cast<float>(0.1 + 0.5 / (1 + std::exp(-2 * off)));
        }
    CHECK(why_not(bow) == "not straight");

    // Veiling light that grows by a third of the step across the box, which no share of both sides
    // is; by half it looks like a blur without end.
    const auto veiled = [&](float per_px) {
        Image<float> lit = drawn(good);
        for (int y = 0; y < 160; ++y)
            for (int x = 0; x < 80; ++x)
                lit.at(x, y) += per_px * static_cast<float>(x);
        return why_not(lit);
    };
    CHECK(veiled(0.002f) == "uneven");
    CHECK(veiled(0.003f) == "too narrow");
}
