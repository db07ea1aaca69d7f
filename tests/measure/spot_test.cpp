#include "measure/spot.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace backrow;
using namespace backrow::measure;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// Area under a circle of radius r about the origin, from x = 0 to x, above y = 0.
double area_under_arc(double x, double r) {
    return (x * std::sqrt(std::max(0.0, r * r - x * x)) + r * r * std::asin(x / r)) / 2;
}

/// Area of the disc of radius r about the origin with coordinates below x and below y. By columns:
/// each has height min(y, arc) + arc, in closed form between where the line y cuts the circle.
double area_below(double x, double y, double r) {
    x = std::clamp(x, -r, r);
    y = std::clamp(y, -r, r);
    const double half_chord = std::sqrt(r * r - y * y);
    const auto arc = [&](double from, double to) {
        return area_under_arc(to, r) - area_under_arc(from, r);
    };
    const double left = std::min(x, -half_chord);
    const double middle = std::clamp(x, -half_chord, half_chord);
    const double below_line = arc(-half_chord, middle) + y * (middle + half_chord);
    if (y >= 0)
        return 2 * arc(-r, left) + below_line + 2 * arc(half_chord, std::max(x, half_chord));
    return below_line;
}

/// A disc of even light, each pixel holding exactly the share of its area that the disc covers.
void add_disc(Image<float>& picture, double centre_x, double centre_y, double radius,
              double brightness = 1) {
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x) {
            const double left = x - centre_x, top = y - centre_y;
            const double covered =
                area_below(left + 1, top + 1, radius) - area_below(left, top + 1, radius) -
                area_below(left + 1, top, radius) + area_below(left, top, radius);
            picture.at(x, y) += static_cast<float>(brightness * std::max(0.0, covered));
        }
}

Spot spot_of(const Image<float>& picture) {
    const auto spot = measure_spot(picture);
    REQUIRE(spot);
    return *spot;
}

/// One lit pixel: the smallest source a picture can hold.
Spot one_pixel() {
    Image<float> picture(3, 3);
    picture.at(1, 1) = 1;
    return spot_of(picture);
}

/// A spot so small that only the pixel's area is left of it: 1/12 an axis.
Spot pixel_area() {
    Spot spot;
    spot.second_moment_px2 = 1.0 / 6;
    return spot;
}

/// How far counting in pixels can put the diameter of an even disc off, by where its rim falls.
///
/// Area sampling multiplies the disc's transform D by sinc(k) sinc(l), which is zero at every whole
/// frequency but the origin, so light is exact; moments take its slope there, 1/k on the axes. With
/// |D'(k)| = 2π R² |J₂(2πRk)|/k and |J₂(x)| ≤ 1.02 √(2/πx), the sum over ±k on both axes is at most
/// 0.56 R^1.5 in ∫r², 0.18 R^−0.5 in E[r²] and 0.36 R^−1.5 in the diameter; the terms left out are
/// under a tenth of that.
double rim_tolerance_px(double radius) {
    return 0.4 * std::pow(radius, -1.5);
}

/// Likewise for the centre, from the slope of sinc times D itself: 0.043 R^−1.5.
double centre_tolerance_px(double radius) {
    return 0.05 * std::pow(radius, -1.5);
}

}  // namespace

// Floats carry each pixel to 6e-8, so the sum of some thousands stays within 1e-6.
TEST_CASE("a disc's light is its area", "[measure][property]") {
    for (const double radius : {0.3, 1.0, 4.7, 20.0}) {
        Image<float> picture(64, 64);
        add_disc(picture, 31.3, 32.8, radius);
        CHECK_THAT(spot_of(picture).light, WithinRel(std::numbers::pi * radius * radius, 1e-6));
    }
}

// The light of a spread spot is that of its source: nothing is lost or made.
TEST_CASE("a spot's light does not depend on where it falls between pixels",
          "[measure][property]") {
    for (const double shift : {0.0, 0.25, 0.5, 0.9}) {
        Image<float> picture(32, 32);
        add_disc(picture, 16 + shift, 16 - shift, 5);
        CHECK_THAT(spot_of(picture).light, WithinRel(25 * std::numbers::pi, 1e-6));
    }
}

// A disc counted in pixels is the disc spread by a pixel's area, so that area is its source.
TEST_CASE("a disc of even light is measured as itself", "[measure][property]") {
    for (const double radius : {2.0, 3.3, 10.0, 27.5})
        for (const double shift : {0.0, 0.31, 0.5}) {
            CAPTURE(radius, shift);
            Image<float> picture(64, 64);
            add_disc(picture, 32 + shift, 32 - shift / 2, radius);
            const Spot spot = spot_of(picture);
            CHECK_THAT(disc_diameter_px(spot, pixel_area()),
                       WithinAbs(2 * radius, rim_tolerance_px(radius)));
            CHECK_THAT(spot.centre_x_px, WithinAbs(32 + shift, centre_tolerance_px(radius)));
            CHECK_THAT(spot.centre_y_px, WithinAbs(32 - shift / 2, centre_tolerance_px(radius)));
        }
}

// Spreads add in second moments: 2²/2 of the source and 6²/2 of the blur.
TEST_CASE("the source's own size is taken out", "[measure][property]") {
    Spot spot, source;
    source.second_moment_px2 = 2.0 * 2.0 / 2;      // a disc of radius 2
    spot.second_moment_px2 = 2.0 + 6.0 * 6.0 / 2;  // spread by a disc of radius 6
    CHECK_THAT(disc_diameter_px(spot, source), WithinRel(12.0, 1e-14));
    CHECK(disc_diameter_px(source, source) == 0);
    CHECK(disc_diameter_px(source, spot) == 0);
}

// A thin ring has E[r²] = R², twice that of the disc of the same radius, so it measures √2 wider;
// between 9.5 and 10.5 E[r²] = (R₁² + R₂²)/2 = 100.25. Tolerance: both rims put ∫r² off by up to
// 0.6 R^1.5, over the ring's 62.8 px² that is 0.6 px² of E, 0.085 px of the diameter.
TEST_CASE("a ring measures the root of two wider than a disc", "[measure][property]") {
    Image<float> picture(48, 48);
    add_disc(picture, 24, 24, 10.5);
    add_disc(picture, 24, 24, 9.5, -1);
    CHECK_THAT(disc_diameter_px(spot_of(picture), pixel_area()),
               WithinAbs(2 * std::sqrt(2 * 100.25), 0.085));
}

// Two lit pixels 20 apart: E[r²] = 10² about the middle; the disc with that moment has d =
// 2√(2·100).
TEST_CASE("two spots measure as their distance apart", "[measure][property]") {
    Image<float> picture(40, 9);
    picture.at(8, 4) = 3;
    picture.at(28, 4) = 3;
    const Spot spot = spot_of(picture);
    CHECK(spot.light == 6);
    CHECK(spot.centre_x_px == 18.5);
    CHECK(spot.centre_y_px == 4.5);
    CHECK(spot.second_moment_px2 == 100);
    CHECK_THAT(disc_diameter_px(spot, one_pixel()), WithinRel(2 * std::sqrt(200.0), 1e-14));
}

TEST_CASE("unequal spots balance where their light does", "[measure][property]") {
    Image<float> picture(40, 9);
    picture.at(8, 4) = 1;
    picture.at(28, 4) = 3;
    CHECK(spot_of(picture).centre_x_px == 23.5);
    // Variance of a two-point law: p q L² = ¼·¾·400.
    CHECK(spot_of(picture).second_moment_px2 == 75);
}

// A Gaussian of standard deviation σ has E[r²] = 2σ²; sampled at pixel middles and cut at 7σ, both
// change that by less than 1e-9 for σ ≥ 2. Floats: 1e-6.
TEST_CASE("a Gaussian spot has twice its variance", "[measure][property]") {
    for (const double sigma : {2.0, 3.7}) {
        Image<float> picture(64, 64);
        for (int y = 0; y < 64; ++y)
            for (int x = 0; x < 64; ++x) {
                const double across = x + 0.5 - 31.9, down = y + 0.5 - 32.2;
                picture.at(x, y) = static_cast<float>(
                    std::exp(-(across * across + down * down) / (2 * sigma * sigma)));
            }
        CHECK_THAT(spot_of(picture).second_moment_px2, WithinRel(2 * sigma * sigma, 1e-6));
        CHECK_THAT(spot_of(picture).light, WithinRel(2 * std::numbers::pi * sigma * sigma, 1e-6));
    }
}

TEST_CASE("brighter is not larger", "[measure][property]") {
    Image<float> dim(32, 32), bright(32, 32);
    add_disc(dim, 16, 16, 6, 0.125);
    add_disc(bright, 16, 16, 6, 512);
    CHECK_THAT(spot_of(bright).second_moment_px2, WithinRel(spot_of(dim).second_moment_px2, 1e-6));
    CHECK_THAT(spot_of(bright).light, WithinRel(4096 * spot_of(dim).light, 1e-6));
}

// In a picture far wider than the spot the moment must not drown in the centre's square.
TEST_CASE("a spot far from the corner is measured as well as one near it", "[measure][property]") {
    Image<float> picture(20000, 3);
    picture.at(19990, 1) = 1;
    picture.at(19991, 1) = 1;
    CHECK(spot_of(picture).second_moment_px2 == 0.25);
}

TEST_CASE("there is no spot in the dark", "[measure][property]") {
    CHECK_FALSE(measure_spot(Image<float>(16, 16)));
    CHECK_FALSE(measure_spot(Image<float>{}));
}

TEST_CASE("a spot that reaches the border may be cut off", "[measure][property]") {
    for (const auto& [x, y] : {std::pair{0, 5}, {15, 5}, {7, 0}, {7, 9}}) {
        Image<float> picture(16, 10);
        picture.at(x, y) = 1e-6f;
        CHECK(touches_border(picture, 1));
        CHECK_FALSE(touches_border(picture, 0));
    }
    Image<float> inside(16, 10);
    inside.at(2, 5) = 1;
    CHECK_FALSE(touches_border(inside, 2));
    CHECK(touches_border(inside, 3));
    CHECK_FALSE(touches_border(Image<float>(16, 10), 5));
}
