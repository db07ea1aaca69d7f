#include "test_stage.h"

#include "measure/spot.h"
#include "optics/blur/blur_circle.h"
#include "optics/lens/lens.h"
#include "ray_tracer.h"

#include "base/colour.h"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace backrow;
using namespace backrow::render;

namespace {

Image<float> green_of(const Image<Rgb>& picture) {
    Image<float> green{picture.width_px(), picture.height_px()};
    for (std::size_t i = 0; i < picture.pixels().size(); ++i)
        green.pixels()[i] = picture.pixels()[i].g;
    return green;
}

double total_light(const Image<Rgb>& picture) {
    double sum = 0;
    for (const Rgb& colour : picture.pixels())
        sum += colour.g;
    return sum;
}

}  // namespace

// The picture itself, not the probe: a lamp seen through the whole renderer.
TEST_CASE("a lamp behind the focus becomes a disc of the formula's diameter in the picture",
          "[render][measured]") {
    const Bench bench;
    const auto view = straight_camera(1.4, 3.0);
    stage::Stage stage;
    stage.parts.push_back(lamp({0.3f, 0.2f, -9.0f}, 0.01f, 30.0f));
    auto sharp = straight_camera(1.4, 9.0);
    const auto samples = make_lens_samples(128, 4096, {});
    const auto at = project(view, {0.3, 0.2, -9.0}).at_px;
    const CropRect crop{at.x - 120, at.y - 120, 240, 240, 480, 480};
    const auto at_sharp = project(sharp, {0.3, 0.2, -9.0}).at_px;
    const CropRect sharp_crop{at_sharp.x - 120, at_sharp.y - 120, 240, 240, 480, 480};
    const auto disc =
        measure::measure_spot(green_of(bench.flat(stage, view, crop, samples).linear));
    const auto source =
        measure::measure_spot(green_of(bench.flat(stage, sharp, sharp_crop, samples).linear));
    REQUIRE(disc);
    REQUIRE(source);
    const double expected_px = optics::blur_diameter_mm(view.focused(), 9.0) * view.px_per_mm();
    const double measured_px = measure::disc_diameter_px(*disc, *source) / 2.0;  // 2 texels a pixel
    CHECK(measured_px == Approx(expected_px).epsilon(0.02));
}

// Energy: the light of a lamp is its emission times the area that it covers, spread or not. An
// octahedron seen along a corner covers a square of side √2·r. Tolerance: each copy covers whole
// texels only, so an area of A texels through n samples strays by about √(perimeter/n)/A.
TEST_CASE("a highlight keeps its light whatever the number of lens samples and wherever the focus",
          "[render][property]") {
    const Bench bench;
    stage::Stage stage;
    stage.parts.push_back(lamp({0.0f, 0.0f, -6.0f}, 0.02f, 25.0f));
    for (const double focus_m : {2.0, 6.0}) {
        const auto view = straight_camera(1.2, focus_m);
        const CropRect crop{2850, 1850, 300, 300, 300, 300};
        const double px_per_m = view.image_distance_mm() * view.px_per_mm() / 6.0;
        const double expected = 25.0 * 2.0 * std::pow(0.02 * px_per_m, 2);
        for (const int passes : {16, 64, 256})
            for (const int fine : {0, 2048}) {
                INFO("focus " << focus_m << " m, " << passes << " passes, " << fine << " fine");
                const auto picture =
                    bench.flat(stage, view, crop, make_lens_samples(passes, fine, {}));
                CHECK(total_light(picture.linear) == Approx(expected).epsilon(0.02));
            }
    }
}

TEST_CASE("a lamp is hidden by whoever stands before it, and hides what is behind it",
          "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(2.0, 3.0);
    const CropRect crop{2900, 1900, 200, 200, 200, 200};
    const auto samples = make_lens_samples(64, 1024, {});
    stage::Stage hidden;
    hidden.parts.push_back(board(-1, -1, 1, 1, 3.0, {0.2f, 0.2f, 0.2f}));
    hidden.parts.push_back(lamp({0, 0, -6}, 0.02f, 25.0f));
    const auto behind = bench.flat(hidden, view, crop, samples);
    for (const Rgb& colour : behind.linear.pixels())
        REQUIRE(colour.g == Approx(0.2f).epsilon(1e-3));

    // A dark lamp of emission 0 before a white board must show black, not white, where it is sharp.
    stage::Stage before;
    before.parts.push_back(board(-2, -2, 2, 2, 4.0, {1, 1, 1}));
    before.parts.push_back(lamp({0, 0, -3}, 0.05f, 0.0f));
    const auto picture = bench.flat(before, view, crop, samples);
    CHECK(picture.linear.at(100, 100).g == Approx(0.0f).margin(2e-3));
    CHECK(picture.linear.at(2, 2).g == Approx(1.0f).epsilon(1e-3));
}

TEST_CASE("flat shows base colour times vertex colour plus emission, and nothing else",
          "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(2.0, 3.0);
    stage::Stage stage;
    stage.parts.push_back(board(-2, -2, 2, 2, 3.0, {0.5f, 0.25f, 1.0f}));
    stage.parts.back().material.base_colour = {0.5f, 0.5f, 0.1f};
    stage.parts.back().material.emission = {0.0f, 0.25f, 3.0f};
    // Seen from behind as well: both sides are drawn.
    std::swap(stage.parts.back().mesh.indices[1], stage.parts.back().mesh.indices[2]);
    const auto picture =
        bench.flat(stage, view, whole_frame(view, 60, 40), make_lens_samples(32, 0, {}));
    // Half floats hold eleven bits, vertex colours sixteen.
    const Rgb middle = picture.linear.at(30, 20);
    CHECK(middle.r == Approx(0.25f).epsilon(1e-3));
    CHECK(middle.g == Approx(0.375f).epsilon(1e-3));
    CHECK(middle.b == Approx(3.1f).epsilon(1e-3));
    const Rgb8 shown = picture.developed.at(30, 20);
    CHECK(shown.b == 255);
    CHECK(shown.r == 137);  // 255·sRGB(0.25) = 136.9
}

TEST_CASE("textures repeat and are read as sRGB", "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(2.0, 3.0);
    stage::Stage stage;
    Image<Rgba8> texture{2, 1};
    texture.at(0, 0) = {255, 0, 0, 255};
    texture.at(1, 0) = {188, 188, 188, 255};  // 0.503 linear
    stage.textures.push_back(texture);
    stage.parts.push_back(board(-2, -2, 2, 2, 3.0, {1, 1, 1}));
    stage.parts.back().material.texture = 0;
    for (auto& vertex : stage.parts.back().mesh.vertices)
        vertex.uv = {2.75f, 0.5f};  // the middle of the second texel, two repeats on
    const auto picture =
        bench.flat(stage, view, whole_frame(view, 30, 20), make_lens_samples(16, 0, {}));
    CHECK(picture.linear.at(15, 10).r == Approx(0.503f).margin(2e-3));
}

// Half floats hold eleven bits, vertex colours sixteen, the texture's step of eight is 0.8 % there.
// In the whole frame a texel of the sheet is far smaller than one of the picture, in a fortieth of
// it larger.
TEST_CASE("skin detail multiplies, and leaves its corner as it was", "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(2.0, 3.0);
    stage::Stage stage;
    Image<Rgba8> sheet{64, 64, {188, 188, 188, 255}};  // 0.503 linear
    for (const int column : {0, 63})
        for (const int row : {0, 63})
            sheet.at(column, row) = {255, 255, 255, 255};
    stage.textures.push_back(sheet);
    for (const bool detailed : {true, false}) {
        stage.parts.push_back(detailed ? board(-2, -2, 0, 2, 3.0, {0.8f, 0.4f, 0.2f})
                                       : board(0, -2, 2, 2, 3.0, {0.8f, 0.4f, 0.2f}));
        stage.parts.back().material.texture = 0;
        stage.parts.back().person = 0;
        for (auto& vertex : stage.parts.back().mesh.vertices)
            vertex.uv = detailed ? glm::vec2{0.5f, 0.5f} : glm::vec2{0};
    }
    CropRect close_up = whole_frame(view, 60, 40);
    close_up.left_px = close_up.width_px * 39 / 80;
    close_up.top_px = close_up.height_px * 39 / 80;
    close_up.width_px /= 40;
    close_up.height_px /= 40;
    for (const CropRect& crop : {whole_frame(view, 60, 40), close_up}) {
        const auto picture = bench.flat(stage, view, crop, make_lens_samples(16, 0, {}));
        CHECK(picture.linear.at(10, 20).r == Approx(0.8f * 0.503f).epsilon(5e-3));
        CHECK(picture.linear.at(10, 20).b == Approx(0.2f * 0.503f).epsilon(5e-3));
        CHECK(picture.linear.at(50, 20).r == Approx(0.8f).epsilon(1e-3));
        CHECK(picture.linear.at(50, 20).b == Approx(0.2f).epsilon(1e-3));
    }
}

TEST_CASE("a picture in tiles is the picture in one piece", "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(1.4, 3.0);
    stage::Stage stage;
    stage.parts.push_back(board(-3, -2, 0.1, 2, 5.0, {0.9f, 0.5f, 0.1f}));
    stage.parts.push_back(board(-0.5, -0.4, 0.5, 0.4, 3.0, {0.1f, 0.4f, 0.8f}));
    const auto samples = make_lens_samples(16, 0, {});
    const auto crop = whole_frame(view, 2500, 40);  // wider than a tile
    const auto whole = bench.flat(stage, view, crop, samples);
    const int left = 1100;
    const auto piece = bench.flat(stage, view, part_of(crop, left, 0, 300, 40), samples);
    double largest = 0.0;
    for (int y = 0; y < 40; ++y)
        for (int x = 0; x < 300; ++x)
            largest =
                std::max(largest, std::abs(static_cast<double>(piece.linear.at(x, y).r -
                                                               whole.linear.at(left + x, y).r)));
    // The same samples; a texel's middle may fall to the other side of an edge in one pass by
    // rounding: 1/16 of the difference between the boards.
    CHECK(largest <= 1.0 / 16.0);
}

TEST_CASE("stopping a picture returns nothing", "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(1.4, 3.0);
    stage::Stage stage;
    stage.parts.push_back(board(-3, -2, 3, 2, 5.0, {0.9f, 0.5f, 0.1f}));
    StageOnGpu on_gpu{bench.gl(), stage};
    const Lighting lighting = light_of(bench.gl(), on_gpu, Look::flat, view);
    double seen = 0.0;
    const auto picture = make_picture({bench.gl(), bench.programs(), on_gpu, lighting}, view,
                                      whole_frame(view, 60, 40), make_lens_samples(64, 0, {}),
                                      KeepLinear::no, [&](double done) {
                                          seen = done;
                                          return done < 0.5;
                                      });
    CHECK_FALSE(picture);
    CHECK(seen == Approx(0.5));
}

namespace {

// Unlit grey boards side by side, each light doubling from left to right, shown as lit pictures
// are.
Picture steps_of_light(float light_gain) {
    auto context = HeadlessContext::make();
    REQUIRE(context);
    const auto programs = PicturePrograms::make(context->gl(), Look::lit);
    REQUIRE(programs);
    const auto view = straight_camera(8.0, 3.0);
    stage::Stage stage;
    for (int i = 0; i < 12; ++i) {
        const double left = -1.2 + 0.2 * i;
        stage.parts.push_back(board(left, -1, left + 0.2, 1, 3.0, glm::vec3{0}));
        stage.parts.back().material.lit = false;
        stage.parts.back().material.emission = glm::vec3{std::ldexp(1.0f, i - 9)};
    }
    StageOnGpu on_gpu{context->gl(), stage};
    const Lighting lighting = light_of(context->gl(), on_gpu, Look::lit, view);
    auto picture = make_picture({context->gl(), *programs, on_gpu, lighting, light_gain}, view,
                                whole_frame(view, 120, 10), make_lens_samples(8, 0, {}),
                                KeepLinear::yes, carry_on);
    REQUIRE(picture);
    CHECK_NOTHROW(require_no_gl_error());
    return std::move(*picture);
}

}  // namespace

// Two stops are a factor of four, whatever else the picture shows.
TEST_CASE("two stops over, every pixel of the linear picture has four times the light",
          "[render][measured]") {
    const Picture metered = steps_of_light(1.0f);
    const Picture over = steps_of_light(4.0f);
    for (std::size_t i = 0; i < metered.linear.pixels().size(); ++i)
        REQUIRE(over.linear.pixels()[i].g == 4.0f * metered.linear.pixels()[i].g);
}

// Below the knee (0.55) the curve is straight, above it each doubling of the light adds less to
// what is shown than the one before, and from 4.2 on there is white. Steps of 2⁻⁹ … 2², then … 2⁵.
TEST_CASE("tones rise with the light, bend over gently and end in white", "[render][measured]") {
    const auto shown = [](float gain) {
        const Picture picture = steps_of_light(gain);
        std::vector<double> tones;
        for (int x = 1; x < 119; ++x) {
            const Rgb8 pixel = picture.developed.at(x, 5);
            CHECK(pixel.r == pixel.g);
            CHECK(pixel.g == pixel.b);
            const double tone = pixel.g;
            if (tones.empty() || tones.back() != tone)
                tones.push_back(tone);
        }
        return tones;
    };
    const auto metered = shown(1.0f);
    REQUIRE(metered.size() >= 11);
    CHECK(std::ranges::is_sorted(metered));
    CHECK(metered.back() >= 253);
    const auto linear = [](double step) {
        return static_cast<double>(linear_from_srgb(static_cast<float>(step / 255)));
    };
    // The last steps, from ½ on: each rise is smaller than the one before it, in linear light.
    const std::size_t n = metered.size();
    CHECK(linear(metered[n - 1]) - linear(metered[n - 2]) <
          linear(metered[n - 2]) - linear(metered[n - 3]));
    const auto over = shown(8.0f);
    CHECK(std::ranges::is_sorted(over));
    CHECK(over.back() == 255);
    CHECK(over.size() < metered.size() + 1);
    CHECK(shown(0.25f).back() < metered.back());
}

// Against a ray tracer of the tests' own: rays from random points of the lens through the point of
// the focal plane that each pixel sees. Tolerance: with n random rays a pixel's value strays by at
// most ½/√n of the contrast; both pictures together must stay above 38 dB, what is promised of
// outside checks.
TEST_CASE("a ray tracer sees the same picture", "[render][measured]") {
    const Bench bench;
    auto view = straight_camera(1.2, 3.0);
    view.position_m = {0.2, 1.5, 4.0};
    view.forward = glm::normalize(glm::dvec3{-0.1, -0.12, -1.0});
    view.right = glm::normalize(glm::cross(view.forward, glm::dvec3{0, 1, 0}));
    view.up = glm::cross(view.right, view.forward);
    stage::Stage stage;
    stage.parts.push_back(board(-6, -1, 6, 5, 6.0, {0.3f, 0.5f, 0.2f}));
    stage.parts.push_back(board(-0.3, 0.8, 0.1, 1.6, -0.9, {0.8f, 0.6f, 0.5f}));
    stage.parts.push_back(board(0.3, 0.4, 0.9, 1.9, 0.4, {0.1f, 0.1f, 0.6f}));
    stage.parts.push_back(board(-1.0, 1.1, -0.4, 1.4, -2.2, {0.9f, 0.9f, 0.1f}));
    stage.parts.push_back(lamp({0.2f, 1.8f, -5.0f}, 0.04f, 20.0f));
    stage.parts.push_back(lamp({-0.6f, 2.0f, -5.2f}, 0.04f, 20.0f));
    const auto crop = whole_frame(view, 150, 100);
    const auto ours = bench.flat(stage, view, crop, make_lens_samples(256, 2048, {})).linear;
    const auto theirs = ray_traced(stage, view, 150, 100, 2048);
    CHECK(psnr_of_display_values(ours, theirs) > 38.0);
}
