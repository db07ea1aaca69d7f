#pragma once

// The materials and textures of a glTF file, each written once.

#include "stage/glb_chunk.h"
#include "stage/stage.h"

#include "shapes/mesh.h"

#include <cstddef>
#include <map>
#include <set>
#include <string>

namespace backrow::stage {

/// They grow as they are asked for. Keeps references to the stage, which owns the textures, and to
/// the chunk, which takes their bytes; both must outlive it. Source: [GLTF2] §3.8, §3.9.
class GltfMaterials {
public:
    GltfMaterials(const Stage& stage, GlbChunk& chunk) : stage_{stage}, chunk_{chunk} {}

    /// The index of this material, written unless it stands there already. Its texture, if it has
    /// one, is one of the stage's.
    int index_of(const shapes::Material& material);

    [[nodiscard]] const Json& materials() const noexcept { return materials_; }
    [[nodiscard]] const Json& textures() const noexcept { return textures_; }
    [[nodiscard]] const Json& samplers() const noexcept { return samplers_; }
    [[nodiscard]] const Json& images() const noexcept { return images_; }
    /// Names of what is used beyond plain glTF 2.0.
    [[nodiscard]] const std::set<std::string>& extensions() const noexcept { return extensions_; }

private:
    Json json_of(const shapes::Material& material);
    int texture_of(int texture);

    const Stage& stage_;
    GlbChunk& chunk_;
    Json materials_ = Json::array();
    Json textures_ = Json::array();
    Json samplers_ = Json::array();
    Json images_ = Json::array();
    std::set<std::string> extensions_;
    std::map<std::string, std::size_t> known_materials_;
    std::map<int, std::size_t> known_textures_;
};

}  // namespace backrow::stage
