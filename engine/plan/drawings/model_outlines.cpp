#include "plan/drawings/model_outlines.h"

#include "scene/model_shape.h"

namespace backrow::plan {

ModelOutlines outlines_of(const std::vector<scene::Model>& models) {
    ModelOutlines outlines;
    for (const scene::Model& model : models) {
        if (!model.read.shape || outlines.contains(model.file))
            continue;
        Extent outline;
        for (const auto& triangle : model.read.shape->triangles)
            for (const glm::vec3& corner : triangle)
                outline.take({.x_m = corner.x, .y_m = -corner.z});
        outlines.emplace(model.file, outline);
    }
    return outlines;
}

}  // namespace backrow::plan
