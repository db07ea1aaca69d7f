#pragma once

// The pictures of a strip: every frame and its least sharp face, from one stage, lit once.

#include "plan/comparing/strip.h"
#include "render/driver/progress.h"
#include "render/passes/sample_choice.h"
#include "report/strip/strip_contents.h"
#include "scene/scene.h"
#include "stage/stage.h"

#include <vector>

struct StripRendering {
    backrow::render::Quality quality = backrow::render::Quality::fine;
    int samples = 0;  ///< 0: follow from the largest blur, in each picture.
};

/// layout, face_scale  as in StripReport
/// returns             one for each frame of the strip
[[nodiscard]] backrow::render::Finished<std::vector<backrow::report::StripMade>>
make_strip_pictures(const backrow::scene::Scene& scene, const backrow::stage::Stage& stage,
                    const backrow::plan::Strip& strip, const backrow::report::StripLayout& layout,
                    double face_scale, const StripRendering& rendering);
