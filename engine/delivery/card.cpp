#include "delivery/card.h"

#include "delivery/preview.h"

#include <algorithm>
#include <utility>

namespace backrow::delivery {

render::Finished<Image<Rgb8>> card_picture(const scene::Scene& scene, const scene::CameraView& view,
                                           const stage::Stage& stage,
                                           const StepProgress& progress) {
    constexpr int long_side_texels = 720;
    const int long_side_px = std::max(view.width_px, view.height_px);
    const int width_texels =
        std::max(1, std::min(view.width_px, long_side_texels * view.width_px / long_side_px));
    plan::FaceTable unmeasured;
    auto made = make_preview(scene, view, stage,
                             {.width_texels = width_texels,
                              .quality = render::Quality::draft,
                              .faces = FacesWanted::none},
                             unmeasured, progress);
    if (!made)
        return tl::make_unexpected(made.error());
    return std::move(made->picture.developed);
}

}  // namespace backrow::delivery
