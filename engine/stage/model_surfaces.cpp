#include "stage/model_surfaces.h"

#include "stage/model_refusal.h"

#include "photographs/decode_picture.h"

#include <fmt/format.h>

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace backrow::stage {
namespace {

glm::vec3 colour_of(const aiMaterial& material, const char* key, glm::vec3 otherwise) {
    aiColor4D colour;
    if (material.Get(key, 0, 0, colour) != AI_SUCCESS)
        return otherwise;
    const glm::vec3 rgb{colour.r, colour.g, colour.b};
    if (!finite(rgb))
        throw Refusal{"has a material whose colour is not a number", save_again};
    return rgb;
}

// What a message calls a picture: Assimp names embedded ones "*0", "*1" and so on.
std::string called(const std::string& named) {
    return named.starts_with('*') ? "embedded texture " + named.substr(1)
                                  : fmt::format("texture `{}`", as_message(named));
}

}  // namespace

Surfaces::Surfaces(const aiScene& scene, const ModelFolder& folder,
                   std::map<std::string, double> strengths, std::uintmax_t most_texture_bytes,
                   double most_pixels)
    : scene_{scene}, folder_{folder}, strengths_{std::move(strengths)},
      most_texture_bytes_{most_texture_bytes}, pixels_left_{most_pixels} {}

const Surfaces::Surface& Surfaces::of(unsigned material) {
    const auto found = surfaces_.find(material);
    if (found != surfaces_.end())
        return found->second;
    return surfaces_.emplace(material, make(*scene_.mMaterials[material])).first->second;
}

Surfaces::Surface Surfaces::make(const aiMaterial& from) {
    Surface surface;
    aiString name;
    if (from.Get(AI_MATKEY_NAME, name) == AI_SUCCESS)
        surface.name = name.C_Str();
    shapes::Material& material = surface.material;

    const glm::vec3 base = colour_of(from, "$clr.base", glm::vec3{1});
    material.base_colour = glm::clamp(colour_of(from, "$clr.diffuse", base), 0.0f, 1.0f);
    for (const aiTextureType type : {aiTextureType_DIFFUSE, aiTextureType_BASE_COLOR})
        if (material.texture < 0 && from.GetTextureCount(type) > 0)
            material.texture = texture_of(from, type, surface.uv_channel);

    if (from.GetTextureCount(aiTextureType_EMISSIVE) == 0)
        material.emission = glm::max(colour_of(from, "$clr.emissive", glm::vec3{0}), 0.0f) *
                            strength_of(from, surface.name);
    float roughness = 1;
    if (from.Get(AI_MATKEY_ROUGHNESS_FACTOR, roughness) == AI_SUCCESS)
        material.gloss = std::clamp(1 - roughness, 0.0f, 1.0f);
    int shading = 0;
    if (from.Get(AI_MATKEY_SHADING_MODEL, shading) == AI_SUCCESS)
        material.lit = shading != aiShadingMode_NoShading;
    return surface;
}

float Surfaces::strength_of(const aiMaterial& material, const std::string& name) const {
    float strength = 1;
    if (material.Get(AI_MATKEY_EMISSIVE_INTENSITY, strength) != AI_SUCCESS) {
        const auto found = strengths_.find(name);
        strength = found == strengths_.end() ? 1.0f : static_cast<float>(found->second);
    }
    return std::isfinite(strength) ? std::max(strength, 0.0f) : 1.0f;
}

int Surfaces::texture_of(const aiMaterial& material, aiTextureType type, unsigned& uv_channel) {
    aiString path;
    if (material.GetTexture(type, 0, &path, nullptr, &uv_channel) != AI_SUCCESS)
        return -1;
    const std::string named = path.C_Str();
    if (const auto found = by_name_.find(named); found != by_name_.end())
        return found->second;
    textures_.push_back(load(named));
    pixels_left_ -= static_cast<double>(textures_.back().pixels().size());
    return by_name_[named] = static_cast<int>(textures_.size()) - 1;
}

Image<Rgba8> Surfaces::load(const std::string& named) const {
    if (const aiTexture* embedded = scene_.GetEmbeddedTexture(named.c_str()))
        return embedded->mHeight == 0
                   ? decode(named,
                            std::as_bytes(std::span{reinterpret_cast<const char*>(embedded->pcData),
                                                    embedded->mWidth}))
                   : copy(named, *embedded);
    const auto place = folder_.find(named);
    if (!place)
        throw Refusal{fmt::format("the {} is not in the model's folder", called(named)),
                      "put the picture beside the model, or save the model with its textures "
                      "embedded"};
    const auto bytes = photographs::bytes_of(*place, most_texture_bytes_);
    if (!bytes)
        throw Refusal{fmt::format("the {} cannot be read", called(named)),
                      "check that the file may be read and is not too large"};
    return decode(named, *bytes);
}

Image<Rgba8> Surfaces::decode(const std::string& named, std::span<const std::byte> bytes) const {
    auto texture = photographs::decode_picture(bytes, pixels_left_);
    if (!texture)
        throw Refusal{fmt::format("the {} {}", called(named), texture.error()),
                      "save it as PNG or JPEG, and smaller where it is large"};
    return std::move(*texture);
}

Image<Rgba8> Surfaces::copy(const std::string& named, const aiTexture& from) const {
    const double pixels = static_cast<double>(from.mWidth) * from.mHeight;
    if (pixels < 1 || pixels > pixels_left_)
        throw Refusal{fmt::format("the {} has {:.0f} pixels, more than there is room for",
                                  called(named), pixels),
                      "make it smaller"};
    Image<Rgba8> texture{static_cast<int>(from.mWidth), static_cast<int>(from.mHeight)};
    std::transform(from.pcData, from.pcData + texture.pixels().size(), texture.pixels().begin(),
                   [](const aiTexel& texel) {
                       return Rgba8{texel.r, texel.g, texel.b, texel.a};
                   });
    return texture;
}

}  // namespace backrow::stage
