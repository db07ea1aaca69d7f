#include "render/studio/open_studio.h"

#include <utility>

namespace backrow::render {

Finished<OpenStudio> OpenStudio::make(const stage::Stage& stage, Look look, const glm::dvec3& eye_m,
                                      const Progress& progress) {
    auto context = HeadlessContext::make();
    if (!context)
        return tl::make_unexpected(context.error());
    auto programs = PicturePrograms::make(context->gl(), look);
    if (!programs)
        return tl::make_unexpected(programs.error());
    if (!progress(0))
        return tl::make_unexpected(Stopped{});
    auto on_gpu = std::make_unique<StageOnGpu>(context->gl(), stage);
    auto lighting = Lighting::make(context->gl(), *on_gpu, look, eye_m, progress);
    if (!lighting)
        return tl::make_unexpected(lighting.error());
    return OpenStudio{std::move(*context), std::move(*programs), stage, std::move(on_gpu),
                      std::move(*lighting)};
}

}  // namespace backrow::render
