#pragma once

// The pictures of the page for the client: each frame of a strip, and everybody's face in it as the
// camera records it, from one stage, lit once.

#include "delivery/step.h"

#include "papers/client/client_page.h"
#include "plan/comparing/strip.h"
#include "render/driver/progress.h"
#include "render/passes/sample_choice.h"
#include "scene/scene.h"
#include "stage/stage.h"

namespace backrow::delivery {

/// So many faces are drawn at most, all pictures together; of more people the least sharp are
/// chosen.
inline constexpr std::size_t most_closer_looks = 300;

/// A tile of a face is as large as the largest face needs, within these.
inline constexpr int largest_tile_width_px = 320;
inline constexpr int largest_tile_height_px = 360;

struct ClientRendering {
    int width_texels = 1920;  ///< Of each picture.
    render::Quality quality = render::Quality::fine;
    int samples = 0;  ///< Points of the lens; 0: follow from the largest blur, in each picture.
};

/// stage  stage_of_strip()
[[nodiscard]] render::Finished<papers::ClientPictures>
client_pictures(const scene::Scene& scene, const plan::Strip& strip, const stage::Stage& stage,
                const ClientRendering& rendering, const StepProgress& progress);

}  // namespace backrow::delivery
