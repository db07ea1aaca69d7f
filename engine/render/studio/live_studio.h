#pragma once

// A studio whose scene changes while it is looked at.
//
// Light is worked out once for a stage and takes seconds without a graphics card, so a stage that
// follows a hand shows what has moved at once in the light it had, and is built and lit anew when
// there is time. What is built anew is what a preview of the scene would be made of.

#include "render/driver/headless_context.h"
#include "render/faces/face_meter.h"
#include "render/passes/picture.h"
#include "render/passes/sample_choice.h"

#include "base/problem.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <set>
#include <vector>

namespace backrow::render {

class LiveStudio {
public:
    /// A headless context and its programs; no stage as yet.
    [[nodiscard]] static Made<LiveStudio> open();

    /// Takes the scene as it is now. Whoever moved, turned, leant or grew is built anew and put in
    /// their place, in the light of before, whatever row they stand in; newcomers stand in nobody's
    /// shadow; whoever has left is not shown; other changes wait for build().
    void follow(const scene::Scene& scene, const scene::CameraView& view);

    /// Builds and lights the stage of the scene that was followed last. With rough light it is not
    /// yet current, and people have no skin detail.
    /// errors  stage::build_stage()'s, the machine's, or Stopped, which leaves the stage of before
    [[nodiscard]] Checked<Finished<void>> build(LightCare care, const Progress& progress);

    [[nodiscard]] bool has_stage() const noexcept { return lighting_.has_value(); }
    /// Whether everybody and everything is shown where and as they are, in whatever light; else
    /// a new shape waits for build().
    [[nodiscard]] bool shows_all() const noexcept { return shows_all_; }
    /// Whether build() with full care would change anything.
    [[nodiscard]] bool is_current() const noexcept { return is_current_; }

    // What follows needs a stage.

    /// DrawnPart::person of somebody of the scene that was followed last; −1 for whoever is not on
    /// the stage yet.
    [[nodiscard]] int number_on_stage(std::size_t person) const { return numbers_[person]; }

    [[nodiscard]] const Gl& gl() const noexcept { return context_.gl(); }
    [[nodiscard]] const stage::Stage& stage() const noexcept { return stage_; }
    [[nodiscard]] const StageOnGpu& on_gpu() const noexcept { return *on_gpu_; }
    [[nodiscard]] const FaceMeter& face_meter() const noexcept { return face_meter_; }
    /// lens_samples_for() this stage.
    [[nodiscard]] LensSamples samples_for(const scene::CameraView& view, const CropRect& crop,
                                          Quality quality, int passes = 0) const {
        return lens_samples_for(stage_, *on_gpu_, view, crop, quality, passes);
    }
    /// For pictures this many stops brighter than metered. Valid until the next build().
    [[nodiscard]] Studio studio(double stops_shown) const;
    /// For pictures that have to come at once, of fewer triangles than the stage's.
    [[nodiscard]] Studio quick_studio(double stops_shown);

private:
    LiveStudio(HeadlessContext context, PicturePrograms programs, FaceMeter face_meter);
    /// Whether it could be done.
    [[nodiscard]] bool put_in_place(std::size_t person);
    void add(std::size_t person);
    void shift(std::size_t person);
    void hide(int number);
    void find_numbers();

    HeadlessContext context_;  // First, so that it outlives what was made in it.
    PicturePrograms programs_;
    FaceMeter face_meter_;

    std::optional<scene::Scene> scene_;  ///< Followed last, and how it is seen.
    scene::CameraView view_;
    /// The stage's people go by their numbers in it; the last are newcomers.
    std::optional<scene::Scene> built_scene_;
    std::size_t newcomers_ = 0;
    std::vector<int> numbers_;  ///< number_on_stage()
    std::set<int> hidden_;      ///< Numbers of those who have left.
    scene::CameraView built_view_;
    bool shows_all_ = false;
    bool is_current_ = false;
    LightCare care_ = LightCare::rough;
    stage::Stage stage_;
    std::unique_ptr<StageOnGpu> on_gpu_;
    std::optional<Lighting> lighting_;
    CoarseTriangles coarse_;
};

}  // namespace backrow::render
