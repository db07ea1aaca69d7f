#include "stage/model_shapes.h"

#include "stage/import_model.h"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <utility>
#include <vector>

namespace backrow::stage {
namespace {

scene::ModelShape shape_of(const ImportedModel& model) {
    std::vector<std::array<glm::vec3, 3>> triangles;
    triangles.reserve(model.triangles);
    for (const Part& part : model.parts) {
        const shapes::Mesh& mesh = part.mesh;
        for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3)
            triangles.push_back({mesh.vertices[mesh.indices[i]].position_m,
                                 mesh.vertices[mesh.indices[i + 1]].position_m,
                                 mesh.vertices[mesh.indices[i + 2]].position_m});
    }
    return scene::model_shape(std::move(triangles));
}

}  // namespace

Checked<void> ModelShapes::give(scene::Scene& scene) {
    std::vector<Problem> problems;
    for (scene::Model& model : scene.models) {
        auto known = shapes_.find(model.file);
        if (known == shapes_.end()) {
            const auto imported = import_model(model.file);
            if (!imported && problems.empty()) {
                const Problem& why = imported.error().front();
                problems.push_back({.where = model.named_at,
                                    .what = fmt::format("model file {}: {}", model.file, why.what),
                                    .mend = why.mend});
            }
            known = shapes_
                        .emplace(model.file, imported ? std::make_shared<const scene::ModelShape>(
                                                            shape_of(*imported))
                                                      : nullptr)
                        .first;
        }
        model.read.shape = known->second;
    }
    if (!problems.empty())
        return tl::unexpected(std::move(problems));
    return {};
}

}  // namespace backrow::stage
