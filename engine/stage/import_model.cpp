#include "stage/import_model.h"

#include "stage/gltf_emission.h"
#include "stage/model_folder.h"
#include "stage/model_header.h"
#include "stage/model_refusal.h"
#include "stage/model_surfaces.h"
#include "stage/model_triangles.h"

#include "base/units.h"

#include <fmt/format.h>

#include <assimp/Importer.hpp>
#include <assimp/config.h>
#include <assimp/postprocess.h>
#include <assimp/scene.h>

#include <glm/ext/matrix_transform.hpp>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <limits>
#include <map>
#include <memory>
#include <stdexcept>
#include <system_error>
#include <utility>

// Debian builds Assimp with its assertions on, and some broken files set them off: as the library
// comes, they end the program. It calls them through this function of its own, which the program
// may therefore define anew; here an assertion refuses the model and no more. A library built
// without assertions never calls it.
namespace Assimp {
void aiAssertViolation(const char* expression, const char* file, int line);
void aiAssertViolation(const char* expression, const char* /*file*/, int /*line*/) {
    throw std::runtime_error(fmt::format("it is not what it says it is: {}", expression));
}
}  // namespace Assimp

namespace backrow::stage {
namespace {

namespace fs = std::filesystem;

// Surfaces that meet at less than this are rounded where a file has no normals: round things stay
// round and boxes keep their edges.
constexpr float crease_deg = 40.0f;

constexpr unsigned left_out = aiComponent_ANIMATIONS | aiComponent_BONEWEIGHTS |
                              aiComponent_CAMERAS | aiComponent_LIGHTS |
                              aiComponent_TANGENTS_AND_BITANGENTS;

// Validation comes first in Assimp's own order and keeps bad indices from the steps after it.
// GlobalScale takes FBX files, alone in stating their unit apart, to metres.
constexpr unsigned steps = aiProcess_ValidateDataStructure | aiProcess_RemoveComponent |
                           aiProcess_Triangulate | aiProcess_GenSmoothNormals |
                           aiProcess_JoinIdenticalVertices | aiProcess_TransformUVCoords |
                           aiProcess_FlipUVs | aiProcess_GlobalScale;

const aiScene& read(Assimp::Importer& importer, const std::string& file,
                    std::unique_ptr<ModelFolder> io) {
    const ModelFolder& folder = *io;
    importer.SetIOHandler(io.release());  // which takes it over
    importer.SetPropertyInteger(AI_CONFIG_PP_RVC_FLAGS, static_cast<int>(left_out));
    importer.SetPropertyFloat(AI_CONFIG_PP_GSN_MAX_SMOOTHING_ANGLE, crease_deg);
    importer.SetPropertyBool(AI_CONFIG_IMPORT_NO_SKELETON_MESHES, true);
    const aiScene* scene = importer.ReadFile(file, steps);
    if (!folder.refused().empty())
        throw Refusal{fmt::format("the model asks for `{}`, which lies outside its own folder",
                                  as_message(folder.refused())),
                      "put all files of a model into one folder and save it anew"};
    if (scene == nullptr)
        throw Refusal{
            fmt::format("cannot be read as a 3D model ({})", as_message(importer.GetErrorString())),
            save_again};
    if (scene->mRootNode == nullptr)
        throw Refusal{"holds no model", save_again};
    return *scene;
}

// One part a material, so that a model of a thousand pieces is not drawn in a thousand strokes.
// A mesh without texture coordinates shows its material's plain colour.
std::vector<Part> parts_of(const aiScene& scene, Surfaces& surfaces, const fs::path& file) {
    const std::string extension = file.extension().string();
    const bool is_gltf = extension == ".glb" || extension == ".gltf";
    std::vector<Part> parts;
    std::map<std::pair<unsigned, bool>, std::size_t> place_of;
    for (const Instance& instance : instances_of(scene, most_model_triangles)) {
        const unsigned material = instance.mesh->mMaterialIndex;
        const Surfaces::Surface& surface = surfaces.of(material);
        const bool textured =
            surface.material.texture >= 0 && instance.mesh->HasTextureCoords(surface.uv_channel);
        const auto [place, is_new] = place_of.try_emplace({material, textured}, parts.size());
        if (is_new) {
            parts.push_back({.name = fmt::format("{}: {}", file.filename().string(), surface.name),
                             .material = surface.material});
            if (!textured)
                parts.back().material.texture = -1;
        }
        bake(instance,
             {.uv_channel = surface.uv_channel,
              .colours_are_linear = is_gltf,
              .farthest = farthest_model_vertex},
             parts[place->second].mesh);
    }
    std::erase_if(parts, [](const Part& part) { return part.mesh.indices.empty(); });
    return parts;
}

ImportedModel read_model(const std::string& file) {
    std::error_code failed;
    const fs::file_status status = fs::status(file, failed);
    if (!fs::exists(status))
        throw Refusal{"this model file is not there",
                      "check the name; it is counted from the scene's folder"};
    if (!fs::is_regular_file(status))
        throw Refusal{"is not a file", "name a model file such as .glb or .obj"};
    const std::uintmax_t file_bytes = fs::file_size(file, failed);
    if (failed || file_bytes > most_model_bytes)
        throw Refusal{fmt::format("is larger than {} MB", most_model_bytes >> 20),
                      "simplify the model in a 3D program"};

    check_header(file, file_bytes);

    const ModelFolder folder{file, most_model_bytes};
    Assimp::Importer importer;
    const aiScene& scene = read(importer, file, std::make_unique<ModelFolder>(folder));
    Surfaces surfaces{scene, folder, emission_strengths(file), most_model_bytes,
                      most_texture_megapixels * 1e6};
    ImportedModel model;
    model.parts = parts_of(scene, surfaces, file);
    if (model.parts.empty())
        throw Refusal{"holds no triangles", "use a model with surfaces, not points or lines alone"};
    model.textures = surfaces.take_textures();
    model.lowest = std::numeric_limits<double>::infinity();
    for (const Part& part : model.parts) {
        model.triangles += part.mesh.indices.size() / 3;
        for (const shapes::Vertex& vertex : part.mesh.vertices)
            model.lowest = std::min(model.lowest, static_cast<double>(vertex.position_m.y));
    }
    return model;
}

}  // namespace

Checked<ImportedModel> import_model(const std::string& file) {
    const auto refuse = [&](std::string what, std::string mend) {
        return tl::unexpected(std::vector<Problem>{
            {.where = {.file = file}, .what = std::move(what), .mend = std::move(mend)}});
    };
    try {
        return read_model(file);
    } catch (const Refusal& refusal) {
        return refuse(refusal.what, refusal.mend);
    } catch (const std::bad_alloc&) {
        return refuse("asks for more memory than there is", "simplify the model in a 3D program");
    } catch (const std::exception& failure) {
        return refuse(fmt::format("cannot be read as a 3D model ({})", as_message(failure.what())),
                      save_again);
    }
}

}  // namespace backrow::stage
