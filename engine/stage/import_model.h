#pragma once

// Models from files (glTF, OBJ, PLY, FBX and whatever else Assimp reads) as parts of the stage.
//
// The model's own origin across and back is its place, its lowest point stands at up_m. Its units
// are metres: glTF says so, formats that state their unit (FBX, Collada) are converted, the rest is
// what `scale` is for. Unturned, a model faces the camera with its +z, as people do.
//
// Numbers of materials are linear light. Vertex colours are linear in glTF and sRGB in every other
// format, where they come from photographs and scans; textures are sRGB. Everything is opaque;
// animations, bones, lights and cameras are left out, and so is emission painted in a texture.

#include "scene/scene.h"
#include "stage/stage.h"

#include "base/image.h"
#include "base/problem.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace backrow::stage {

/// Limits that keep every model renderable.
inline constexpr std::uintmax_t most_model_bytes = 512u << 20;
inline constexpr std::size_t most_model_triangles = 5'000'000;
inline constexpr double most_texture_megapixels = 64.0;
inline constexpr double farthest_model_vertex = 1e7;  ///< From its origin, in its own units.

/// A model as its file has it, unplaced.
struct ImportedModel {
    std::vector<Part> parts;  ///< One a material, in the model's space, world_from_part identity.
    std::vector<Image<Rgba8>> textures;  ///< What Material::texture counts from 0.
    double lowest = 0;                   ///< Least height of a vertex, the model's units.
    std::size_t triangles = 0;
};

/// Reads a model: node transforms baked in, polygons cut into triangles, missing normals made,
/// lines, points and triangles without area dropped.
///
/// file      every other file that it names (buffers, materials, textures) must lie in its folder
/// returns   the model, or one problem with the file as a whole: not there, too large, not
///           understood, without triangles, not finite, reaching outside its folder, a texture
///           missing or not PNG, JPEG, BMP or TGA
[[nodiscard]] Checked<ImportedModel> import_model(const std::string& file);

}  // namespace backrow::stage
