#include "test_stage.h"

#include "measure/difference.h"
#include "optics/blur/blur_circle.h"

#include <algorithm>
#include <cmath>

using namespace backrow;
using namespace backrow::render;

namespace {

constexpr double focus_m = 3.0;

// Narrow white boards before a dark one, all far behind the focus, as a fence or leaves may be.
stage::Stage slats(double axial_m) {
    stage::Stage stage;
    for (int i = -6; i <= 6; ++i)
        stage.parts.push_back(board(0.2 * i - 0.02, -2, 0.2 * i + 0.02, 2, axial_m, glm::vec3{1}));
    stage.parts.push_back(board(-9, -9, 9, 9, axial_m + 0.01, glm::vec3{0.05f}));
    return stage;
}

// The middle of the picture at half its size: discs are some thirty texels wide.
constexpr CropRect middle{2600, 1700, 800, 600, 400, 300};

Picture pictured(const Bench& bench, const stage::Stage& stage, const scene::CameraView& view,
                 int passes) {
    return bench.flat(stage, view, middle, make_lens_samples(passes, 0, {}));
}

double decibels_between(const Picture& one, const Picture& other) {
    return measure::decibels(measure::difference(one.developed, other.developed).mean_square);
}

// The steepest step between neighbours along the middle row of a picture.
float steepest(const Image<Rgb>& picture, int from, int to) {
    float step = 0;
    for (int x = from; x + 1 < to; ++x)
        step = std::max(step, std::abs(picture.at(x + 1, picture.height_px() / 2).g -
                                       picture.at(x, picture.height_px() / 2).g));
    return step;
}

}  // namespace

// With 2,048 passes cells are 1/45 of the disc: the plain sum, near enough. The plain sum of 32
// shows each slat as a comb of ghosts. 43 dB is what the finished picture is held to.
TEST_CASE("few points of the lens make the blur that many make", "[render][measured]") {
    const Bench bench;
    const auto view = straight_camera(1.4, focus_m);
    for (const double axial_m : {2.0, 4.0, 9.0}) {
        const auto stage = slats(axial_m);
        const auto many = pictured(bench, stage, view, 2048);
        CAPTURE(axial_m);
        CHECK(decibels_between(pictured(bench, stage, view, 32), many) > 40);
        CHECK(decibels_between(pictured(bench, stage, view, 16), many) > 34);
    }
}

// A blurred edge climbs by its height over its width. Ghosts climb in steps; twice the mean slope
// is the slope in the middle of a disc's edge spread, 4/π, with a half to spare.
TEST_CASE("a blurred edge has no steps", "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(1.4, focus_m);
    stage::Stage stage;
    stage.parts.push_back(board(0, -9, 9, 9, 9.0, glm::vec3{1}));
    stage.parts.push_back(board(-9, -9, 9, 9, 9.01, glm::vec3{0}));
    const double width_texels =
        texels_from_camera(
            CameraPixels{optics::blur_diameter_mm(view.focused(), 9.0) * view.px_per_mm()}, middle)
            .value;
    REQUIRE(width_texels > 8);
    const auto picture = pictured(bench, stage, view, 16).linear;
    CHECK(steepest(picture, 0, middle.width_texels) < 1.9 / width_texels);
}

// Somebody sharp before something bright and blurred: the silhouette is one texel wide, and beyond
// it nothing of the one is found in the other.
TEST_CASE("a sharp edge before a wide blur stays sharp and clean", "[render][measured]") {
    const Bench bench;
    const auto view = straight_camera(1.4, focus_m);
    stage::Stage stage = slats(12.0);
    stage.parts.push_back(board(-9, -9, 0.003, 9, focus_m, {0.2f, 0.2f, 0.2f}));
    const auto few = pictured(bench, stage, view, 16);
    const auto many = pictured(bench, stage, view, 2048);
    const int y = few.linear.height_px() / 2;
    int edge = 0;
    while (std::abs(many.linear.at(edge + 1, y).g - 0.2f) < 1e-3f)
        ++edge;
    for (int x = 0; x <= edge; ++x)
        REQUIRE(few.linear.at(x, y).g == Approx(0.2f).margin(1e-3));
    for (int x = edge + 1; x < edge + 12; ++x)
        CHECK(few.linear.at(x, y).g == Approx(many.linear.at(x, y).g).margin(0.06));
}

TEST_CASE("a picture that does not change is good enough early, one full of detail later",
          "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(1.4, focus_m);
    const auto passes_for = [&](const stage::Stage& stage, double enough_db) {
        auto samples = make_lens_samples(8, 0, {});
        double_up_to(samples, 256, {});
        samples.looks = {8, 16, 32, 64, 128, 256};
        samples.enough_db = enough_db;
        return bench.flat(stage, view, middle, samples).passes;
    };
    stage::Stage plain;
    plain.parts.push_back(board(-9, -9, 9, 9, 6.0, {0.3f, 0.4f, 0.5f}));
    CHECK(passes_for(plain, 42) == 16);
    const int detailed = passes_for(slats(9.0), 48);
    CHECK(detailed > 16);
    CHECK(passes_for(slats(9.0), 200) == 256);
    CHECK(passes_for(slats(9.0), 25) < detailed);
}
