#pragma once

// The card for the shoot with its small picture.

#include "delivery/step.h"

#include "papers/card/card.h"
#include "render/driver/progress.h"
#include "scene/camera_view.h"
#include "scene/scene.h"
#include "stage/stage.h"

#include "base/image.h"

namespace backrow::delivery {

/// As large as a card needs it, and of draft quality: it is printed as small as a stamp.
///
/// stage  build_stage() of this scene and view
[[nodiscard]] render::Finished<Image<Rgb8>> card_picture(const scene::Scene& scene,
                                                         const scene::CameraView& view,
                                                         const stage::Stage& stage,
                                                         const StepProgress& progress);

}  // namespace backrow::delivery
