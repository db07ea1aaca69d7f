#include "rehearsal/model_outlines.h"

#include "stage/import_model.h"

#include <glm/vec4.hpp>

namespace backrow::rehearsal {

ModelOutlines outlines_of(const std::vector<scene::Model>& models) {
    ModelOutlines outlines;
    for (const scene::Model& model : models) {
        if (outlines.contains(model.file))
            continue;
        const auto imported = stage::import_model(model.file);
        if (!imported)
            continue;
        Extent outline;
        for (const stage::Part& part : imported->parts)
            for (const shapes::Vertex& vertex : part.mesh.vertices) {
                const glm::dvec4 point = part.world_from_part * glm::dvec4{vertex.position_m, 1};
                outline.take({.x_m = point.x, .y_m = -point.z});
            }
        outlines.emplace(model.file, outline);
    }
    return outlines;
}

}  // namespace backrow::rehearsal
