#pragma once

// The materials of an imported model and their pictures.

#include "stage/model_folder.h"

#include "shapes/mesh.h"

#include "base/image.h"

#include <assimp/material.h>
#include <assimp/scene.h>

#include <cstddef>
#include <map>
#include <span>
#include <string>
#include <vector>

namespace backrow::stage {

/// Materials and their pictures, each read once.
class Surfaces {
public:
    struct Surface {
        std::string name;
        shapes::Material material;  ///< Its texture counts from 0 in textures().
        unsigned uv_channel = 0;
    };

    /// strengths           of emission, by material name (gltf_emission.h)
    /// most_texture_bytes  of one picture's file
    /// most_pixels         of all pictures together
    Surfaces(const aiScene& scene, const ModelFolder& folder,
             std::map<std::string, double> strengths, std::uintmax_t most_texture_bytes,
             double most_pixels);

    /// Throws Refusal where a picture is missing, damaged or too large, or a colour no number.
    const Surface& of(unsigned material);

    [[nodiscard]] std::vector<Image<Rgba8>> take_textures() { return std::move(textures_); }

private:
    Surface make(const aiMaterial& from);
    float strength_of(const aiMaterial& material, const std::string& name) const;
    int texture_of(const aiMaterial& material, aiTextureType type, unsigned& uv_channel);
    Image<Rgba8> load(const std::string& named) const;
    Image<Rgba8> decode(const std::string& named, std::span<const std::byte> bytes) const;
    Image<Rgba8> copy(const std::string& named, const aiTexture& from) const;

    const aiScene& scene_;
    const ModelFolder& folder_;
    std::map<std::string, double> strengths_;
    std::uintmax_t most_texture_bytes_;
    double pixels_left_;
    std::vector<Image<Rgba8>> textures_;
    std::map<unsigned, Surface> surfaces_;
    std::map<std::string, int> by_name_;
};

}  // namespace backrow::stage
