#include "stage/stage_models.h"

#include "scene/model_shape.h"
#include "stage/import_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <utility>

namespace backrow::stage {
namespace {

/// Every file read once, however often it stands in the scene.
struct ModelStock {
    struct Kept {
        ImportedModel model;
        int first_texture = 0;
    };
    std::map<std::string, Kept> kept;
    std::size_t triangles = 0;
    double texture_megapixels = 0;
};

double megapixels_of(const std::vector<Image<Rgba8>>& textures) {
    double pixels = 0;
    for (const Image<Rgba8>& texture : textures)
        pixels += static_cast<double>(texture.pixels().size());
    return pixels / 1e6;
}

// A model that cannot be used is a mistake of the scene that names it.
Problem told_at_its_name(const scene::Model& model, std::string_view what, std::string mend) {
    return {.where = model.named_at,
            .what = fmt::format("model file {}: {}", model.file, what),
            .mend = std::move(mend)};
}

Problem too_much(const scene::Model& model, std::string_view what) {
    return told_at_its_name(model, what, "use fewer models, or simpler ones");
}

void place_model(const scene::Model& model, const ModelStock::Kept& kept, Stage& stage) {
    for (const Part& unplaced : kept.model.parts) {
        Part part = unplaced;
        part.world_from_part = scene::world_from_model(model, kept.model.lowest);
        if (part.material.texture >= 0)
            part.material.texture += kept.first_texture;
        stage.parts.push_back(std::move(part));
    }
}

}  // namespace

std::vector<Problem> add_models(const std::vector<scene::Model>& models, Stage& stage) {
    std::vector<Problem> problems;
    ModelStock stock;
    std::map<std::string, bool> refused;
    for (const scene::Model& model : models) {
        if (refused.contains(model.file))
            continue;
        if (!stock.kept.contains(model.file)) {
            auto read = import_model(model.file);
            if (!read) {
                for (Problem& problem : read.error())
                    problems.push_back(
                        told_at_its_name(model, problem.what, std::move(problem.mend)));
                refused[model.file] = true;
                continue;
            }
            const int first_texture = static_cast<int>(stage.textures.size());
            stock.texture_megapixels += megapixels_of(read->textures);
            std::ranges::move(read->textures, std::back_inserter(stage.textures));
            read->textures.clear();
            stock.kept[model.file] = {std::move(*read), first_texture};
        }
        const ModelStock::Kept& kept = stock.kept[model.file];
        stock.triangles += kept.model.triangles;
        if (stock.triangles > most_model_triangles) {
            problems.push_back(too_much(
                model, fmt::format("with this model the scene's models have more than {} triangles",
                                   most_model_triangles)));
            return problems;
        }
        if (stock.texture_megapixels > most_texture_megapixels) {
            problems.push_back(too_much(
                model, fmt::format("with this model the scene's textures have more than {:g} "
                                   "megapixels",
                                   most_texture_megapixels)));
            return problems;
        }
        place_model(model, kept, stage);
    }
    return problems;
}

}  // namespace backrow::stage
