#include "render/passes/sample_choice.h"

#include "test_stage.h"

#include "optics/blur_circle.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

using namespace backrow;
using namespace backrow::render;

namespace {

/// engine/README.md, "How many points of the lens".
struct Row {
    Quality quality;
    double neighbours_texels;
    int fewest, most;
};
constexpr Row table[] = {{Quality::draft, 3.2, 16, 96},
                         {Quality::fine, 1.6, 64, 384},
                         {Quality::reference, 0.8, 256, 4096}};
constexpr int most_fine_samples = 32768;

constexpr double focus_m = 3.0;
constexpr double board_m = 6.0;

stage::Stage board_only(double axial_m = board_m) {
    stage::Stage stage;
    stage.parts.push_back(board(-0.1, -0.1, 0.1, 0.1, axial_m, glm::vec3{1}));
    return stage;
}

/// What is chosen where this is all there is, in a picture so wide.
SampleChoice chosen(const Bench& bench, const stage::Stage& stage, const scene::CameraView& view,
                    int width_texels, Quality quality) {
    StageOnGpu on_gpu{bench.gl(), stage};
    return choose_samples(stage, on_gpu, view,
                          whole_frame(view, width_texels, width_texels * 2 / 3), quality);
}

double blur_texels(const scene::CameraView& view, double axial_m, int width_texels) {
    return optics::blur_diameter_mm(view.focused(), axial_m) * view.px_per_mm() * width_texels /
           view.width_px;
}

/// How far apart the ghosts of an edge lie that so many points make of a blur disc, the mean over
/// all of them, measured on the points themselves.
double mean_neighbours_texels(int points, double disc_texels) {
    const auto samples = make_lens_samples(points, 0, 0).coarse;
    double sum = 0;
    for (const LensSample& one : samples) {
        auto nearest = std::numeric_limits<float>::infinity();
        for (const LensSample& other : samples)
            if (&one != &other)
                nearest = std::min(
                    nearest, std::hypot(one.pupil_x - other.pupil_x, one.pupil_y - other.pupil_y));
        sum += static_cast<double>(nearest);
    }
    return sum / points * disc_texels / 2;
}

}  // namespace

TEST_CASE("the picture of something sharp takes the fewest points, that of a great blur the most",
          "[render][property]") {
    const Bench bench;
    for (const auto& [quality, neighbours_texels, fewest, most] : table) {
        CAPTURE(fewest);
        const auto view = straight_camera(1.4, focus_m);
        CHECK(chosen(bench, board_only(focus_m), view, 6000, quality).passes == fewest);
        CHECK(chosen(bench, board_only(40), view, 6000, quality).passes == most);
    }
}

// Each point stands for an equal share of the disc, a cell as wide as the table says at most; with
// one point fewer it would be wider. The points themselves, on a spiral, are nearest to one another
// at 0.85 to 1 of a cell's width.
TEST_CASE("between the limits neighbours lie as far apart as the table says",
          "[render][property]") {
    const Bench bench;
    for (const auto& [quality, neighbours_texels, fewest, most] : table)
        for (const double f_number : {1.4, 2.8})
            for (const double above_fewest : {1.2, 2.5, 5.0}) {
                const auto view = straight_camera(f_number, focus_m);
                const double about_texels =
                    neighbours_texels * std::sqrt(4 / std::numbers::pi * fewest * above_fewest);
                const int width_texels =
                    static_cast<int>(about_texels / blur_texels(view, board_m, 1));
                const double disc_texels = blur_texels(view, board_m, width_texels);
                const double area = std::numbers::pi / 4 * disc_texels * disc_texels;
                const int passes = chosen(bench, board_only(), view, width_texels, quality).passes;
                INFO(passes << " points for a disc of " << disc_texels << " texels");
                REQUIRE(passes > fewest);
                REQUIRE(passes < most);
                CHECK(std::sqrt(area / passes) <= neighbours_texels * (1 + 1e-9));
                CHECK(std::sqrt(area / (passes - 1)) > neighbours_texels);
                const double measured_texels = mean_neighbours_texels(passes, disc_texels);
                CHECK(measured_texels > 0.85 * neighbours_texels);
                CHECK(measured_texels < neighbours_texels);
            }
}

TEST_CASE("a better quality, a larger picture and a wider opening never take fewer points",
          "[render][property]") {
    const Bench bench;
    int last_of_qualities = 0;
    for (const Row& row : table) {
        int last = 0;
        for (const int width_texels : {300, 900, 2000, 5000}) {
            const auto view = straight_camera(2.0, focus_m);
            const int passes = chosen(bench, board_only(), view, width_texels, row.quality).passes;
            CHECK(passes >= last);
            last = passes;
        }
        CHECK(last > last_of_qualities);
        last_of_qualities = last;
        const auto passes_at = [&](double f_number) {
            return chosen(bench, board_only(), straight_camera(f_number, focus_m), 1200,
                          row.quality)
                .passes;
        };
        CHECK(passes_at(1.2) >= passes_at(2.8));
        CHECK(passes_at(2.8) >= passes_at(16));
    }
}

TEST_CASE("what the window does not show asks for no points", "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(1.4, focus_m);
    stage::Stage stage = board_only(focus_m);
    stage.parts.push_back(board(0.6, 0.3, 0.7, 0.4, 12, glm::vec3{1}));
    stage.parts.push_back(board(-0.1, -0.1, 0.1, 0.1, -5, glm::vec3{1}));  // behind the lens
    StageOnGpu on_gpu{bench.gl(), stage};
    const auto middle = part_of(whole_frame(view, 3000, 2000), 1450, 950, 100, 100);
    CHECK(choose_samples(stage, on_gpu, view, middle, Quality::fine).passes == 64);
    CHECK(chosen(bench, stage, view, 3000, Quality::fine).passes > 64);
}

// A lamp of d texels spread over D shows a ripple of a tenth of its disc where there are ten times
// (D/d)² points; see sample_choice.cpp. A lamp smaller than a texel counts as one.
TEST_CASE(
    "the smaller a lamp and the larger its disc, the more fine points, up to the most there are",
    "[render][property]") {
    const Bench bench;
    const auto with_lamp = [&](float radius_m, double f_number, int width_texels) {
        stage::Stage stage;
        stage.parts.push_back(lamp({0, 0, -9}, radius_m, 30));
        return chosen(bench, stage, straight_camera(f_number, focus_m), width_texels,
                      Quality::fine);
    };
    const auto ripple_free = [&](float radius_m, double f_number, int width_texels) {
        const auto view = straight_camera(f_number, focus_m);
        const double lamp_texels = 2.0 * static_cast<double>(radius_m) / 9.0 *
                                   view.image_distance_mm() * view.px_per_mm() * width_texels /
                                   view.width_px;
        const double spread = blur_texels(view, 9.0, width_texels) / std::max(1.0, lamp_texels);
        return std::min(10 * spread * spread, static_cast<double>(most_fine_samples));
    };
    for (const float radius_m : {0.0001f, 0.004f, 0.02f})
        for (const double f_number : {1.4, 4.0})
            for (const int width_texels : {900, 2700, 9000}) {
                const SampleChoice choice = with_lamp(radius_m, f_number, width_texels);
                CAPTURE(radius_m, f_number, width_texels);
                CHECK(choice.fine_samples >= ripple_free(radius_m, f_number, width_texels));
                CHECK(choice.fine_samples <= most_fine_samples);
                CHECK(choice.fine_samples >= 4 * choice.passes);
            }
    CHECK(with_lamp(0.0001f, 1.4, 9000).fine_samples == most_fine_samples);
    CHECK(with_lamp(0.001f, 1.4, 2700).fine_samples > with_lamp(0.004f, 1.4, 2700).fine_samples);
    CHECK(with_lamp(0.001f, 1.4, 2700).fine_samples > with_lamp(0.001f, 4.0, 2700).fine_samples);
    // Without a lamp there are the four copies a pass that any edge of a light is worth.
    const auto dark =
        chosen(bench, board_only(), straight_camera(1.4, focus_m), 2700, Quality::fine);
    CHECK(dark.fine_samples == 4 * dark.passes);
}

TEST_CASE("as many points are taken as the user named", "[render][property]") {
    const Bench bench;
    const auto stage = board_only();
    StageOnGpu on_gpu{bench.gl(), stage};
    const auto view = straight_camera(1.4, focus_m);
    const auto window = whole_frame(view, 300, 200);
    for (const int passes : {1, 7, 5000}) {
        const auto samples = lens_samples_for(stage, on_gpu, view, window, Quality::draft, passes);
        CHECK(static_cast<int>(samples.coarse.size()) == passes);
        CHECK(static_cast<int>(samples.fine.size()) >= 4 * passes);
    }
    const auto left_open = lens_samples_for(stage, on_gpu, view, window, Quality::draft, 0);
    CHECK(static_cast<int>(left_open.coarse.size()) ==
          choose_samples(stage, on_gpu, view, window, Quality::draft).passes);
}
