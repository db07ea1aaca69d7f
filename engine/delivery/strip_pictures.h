#pragma once

// A strip as it is made: where everything stands on its sheet, then every frame and its least sharp
// face, from one stage, lit once.

#include "delivery/step.h"

#include "plan/comparing/strip.h"
#include "render/driver/progress.h"
#include "render/passes/sample_choice.h"
#include "report/strip/strip_contents.h"
#include "scene/scene.h"
#include "stage/stage.h"

#include "base/problem.h"

#include <optional>
#include <string>

namespace backrow::delivery {

/// A frame in which nobody's face lies whole has nothing to judge.
struct FacelessFrame {
    plan::StripPlace place;
    std::string what;
    std::string mend;
};
/// The first of them, if any.
[[nodiscard]] std::optional<FacelessFrame> faceless_frame(const plan::Strip& strip);

struct StripRendering {
    render::Quality quality = render::Quality::fine;
    int samples = 0;  ///< 0: follow from the largest blur, in each picture.
};

/// What all frames are drawn from; problems are those of build_stage().
[[nodiscard]] Checked<stage::Stage> stage_of_strip(const scene::Scene& scene,
                                                   const plan::Strip& strip);

/// strip  without a faceless frame
/// size   how large frames and faces are
/// stage  stage_of_strip()
[[nodiscard]] render::Finished<report::StripPictures>
make_strip_pictures(const scene::Scene& scene, const plan::Strip& strip,
                    const report::StripCell& size, const stage::Stage& stage,
                    const StripRendering& rendering, const StepProgress& progress);

/// The same with all that stands on a strip's sheet.
///
/// subject  no frame of its strip is faceless
/// layout   strip_layout() of its shape
/// stage    stage_of_strip()
[[nodiscard]] render::Finished<report::StripReport>
make_strip(report::StripSubject subject, report::StripLayout layout, const stage::Stage& stage,
           const StripRendering& rendering, const StepProgress& progress);

}  // namespace backrow::delivery
