#include "stage/gltf_materials.h"

#include "base/image_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace backrow::stage {
namespace {

using shapes::Material;

// How glTF numbers the ways to look up a texture.
constexpr int linear_filter = 9729;
constexpr int repeat_wrap = 10497;

constexpr const char* strength_extension = "KHR_materials_emissive_strength";
constexpr const char* unlit_extension = "KHR_materials_unlit";

Json json_of_colour(const glm::vec3& colour) {
    return {colour.r, colour.g, colour.b};
}

}  // namespace

int GltfMaterials::index_of(const Material& material) {
    Json json = json_of(material);
    const auto [known, is_new] = known_materials_.try_emplace(json.dump(), materials_.size());
    if (is_new) {
        // Some importers know the materials of a file by their names alone.
        json["name"] = fmt::format("material {}", materials_.size());
        materials_.push_back(std::move(json));
    }
    return static_cast<int>(known->second);
}

Json GltfMaterials::json_of(const Material& material) {
    const glm::vec3& base = material.base_colour;
    Json surface{{"baseColorFactor", {base.r, base.g, base.b, 1.0}}};
    if (material.texture >= 0)
        surface["baseColorTexture"] = {{"index", texture_of(material.texture)}};
    surface["metallicFactor"] = 0;
    surface["roughnessFactor"] = 1 - material.gloss;
    Json json{{"pbrMetallicRoughness", std::move(surface)}, {"doubleSided", true}};

    const float brightest =
        std::max({material.emission.r, material.emission.g, material.emission.b});
    if (brightest > 0)
        json["emissiveFactor"] =
            json_of_colour(brightest > 1 ? material.emission / brightest : material.emission);
    if (brightest > 1) {
        json["extensions"][strength_extension] = {{"emissiveStrength", brightest}};
        extensions_.insert(strength_extension);
    }
    if (!material.lit && !(brightest > 0)) {
        json["extensions"][unlit_extension] = Json::object();
        extensions_.insert(unlit_extension);
    }
    return json;
}

int GltfMaterials::texture_of(int texture) {
    const auto [known, is_new] = known_textures_.try_emplace(texture, textures_.size());
    if (is_new) {
        if (samplers_.empty())
            samplers_.push_back({{"magFilter", linear_filter},
                                 {"minFilter", linear_filter},
                                 {"wrapS", repeat_wrap},
                                 {"wrapT", repeat_wrap}});
        const Bytes png = png_bytes(stage_.textures[static_cast<std::size_t>(texture)]);
        images_.push_back({{"bufferView", chunk_.add_picture(png)}, {"mimeType", "image/png"}});
        textures_.push_back({{"sampler", 0}, {"source", images_.size() - 1}});
    }
    return static_cast<int>(known->second);
}

}  // namespace backrow::stage
