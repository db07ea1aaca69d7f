#include "render/passes/sample_choice.h"

#include "test_stage.h"

#include "optics/blur/blur_circle.h"

#include <algorithm>
#include <cmath>

using namespace backrow;
using namespace backrow::render;

namespace {

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

}  // namespace

TEST_CASE("a better quality goes on for longer and is harder to please", "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(1.4, focus_m);
    const auto draft = chosen(bench, board_only(), view, 900, Quality::draft);
    const auto fine = chosen(bench, board_only(), view, 900, Quality::fine);
    const auto reference = chosen(bench, board_only(), view, 900, Quality::reference);
    CHECK(draft.most_passes < fine.most_passes);
    CHECK(draft.enough_db < fine.enough_db);
    // The reference is for those who doubt the others, and never stops early.
    CHECK(reference.passes > fine.most_passes);
    CHECK(reference.most_passes == reference.passes);
}

// A cell of one sample among n is imaged 1/√n of the disc, whatever the picture; the kernel that
// spreads it is wider by a constant. Tolerance: none but rounding.
TEST_CASE("cells spread the largest blur in view, and what is not in view does not count",
          "[render][property]") {
    const Bench bench;
    const auto view = straight_camera(1.4, focus_m);
    const auto spread_of_disc = [&](const SampleChoice& choice, double axial_m, int width_texels) {
        return choice.spread_texels * std::sqrt(choice.passes) /
               blur_texels(view, axial_m, width_texels);
    };
    const auto near = chosen(bench, board_only(6), view, 900, Quality::fine);
    const auto far = chosen(bench, board_only(20), view, 2700, Quality::fine);
    CHECK(spread_of_disc(near, 6, 900) == Approx(spread_of_disc(far, 20, 2700)));
    CHECK(spread_of_disc(near, 6, 900) > 0.5);
    CHECK(spread_of_disc(near, 6, 900) < 2);

    stage::Stage stage = board_only(focus_m);
    stage.parts.push_back(board(0.6, 0.3, 0.7, 0.4, 12, glm::vec3{1}));
    stage.parts.push_back(board(-0.1, -0.1, 0.1, 0.1, -5, glm::vec3{1}));  // behind the lens
    StageOnGpu on_gpu{bench.gl(), stage};
    const auto middle = part_of(whole_frame(view, 3000, 2000), 1450, 950, 100, 100);
    CHECK(choose_samples(stage, on_gpu, view, middle, Quality::fine).spread_texels ==
          Approx(0).margin(1e-6));
    CHECK(chosen(bench, stage, view, 3000, Quality::fine).spread_texels > 5);
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
                CHECK(choice.fine_samples >= 16 * choice.passes);
            }
    CHECK(with_lamp(0.0001f, 1.4, 9000).fine_samples == most_fine_samples);
    CHECK(with_lamp(0.001f, 1.4, 2700).fine_samples > with_lamp(0.004f, 1.4, 2700).fine_samples);
    CHECK(with_lamp(0.001f, 1.4, 2700).fine_samples > with_lamp(0.001f, 4.0, 2700).fine_samples);
    // Without a lamp there are the sixteen copies a pass that any edge of a light is worth.
    const auto dark =
        chosen(bench, board_only(), straight_camera(1.4, focus_m), 2700, Quality::fine);
    CHECK(dark.fine_samples == 16 * dark.passes);
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
        CHECK(static_cast<int>(samples.fine.size()) >= 16 * passes);
    }
    const auto choice = choose_samples(stage, on_gpu, view, window, Quality::draft);
    const auto left_open = lens_samples_for(stage, on_gpu, view, window, Quality::draft, 0);
    CHECK(static_cast<int>(left_open.coarse.size()) == choice.most_passes);
    CHECK(left_open.looks.front() == choice.passes);
    CHECK(left_open.looks.back() == choice.most_passes);
}
