#include "scene/import_model.h"

#include "scene/gltf_emission.h"
#include "scene/model_folder.h"
#include "scene/read_texture.h"

#include "base/colour.h"
#include "base/units.h"

#include <fmt/format.h>

#include <assimp/Importer.hpp>
#include <assimp/config.h>
#include <assimp/material.h>
#include <assimp/postprocess.h>
#include <assimp/scene.h>

#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>
#include <glm/mat3x3.hpp>
#include <glm/matrix.hpp>

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>
#include <map>
#include <memory>
#include <system_error>
#include <utility>

namespace backrow::scene {
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

/// Why a model is refused. Thrown and caught in this file only, beside Assimp's own exceptions.
struct Refusal {
    std::string what;
    std::string mend;
};

const char* const save_again = "open it in a 3D program and save it as binary glTF (.glb)";

std::string on_one_line(std::string text) {
    for (char& c : text)
        if (static_cast<unsigned char>(c) < ' ')
            c = ' ';
    constexpr std::size_t longest = 300;
    return text.size() > longest ? text.substr(0, longest) + " …" : text;
}

glm::dmat4 dmat4_of(const aiMatrix4x4& m) {
    return {{m.a1, m.b1, m.c1, m.d1},
            {m.a2, m.b2, m.c2, m.d2},
            {m.a3, m.b3, m.c3, m.d3},
            {m.a4, m.b4, m.c4, m.d4}};
}

template <class Vec> bool finite(const Vec& v) {
    for (int i = 0; i < Vec::length(); ++i)
        if (!std::isfinite(v[i]))
            return false;
    return true;
}

float to_unit(float value) {
    return std::clamp(value, 0.0f, 1.0f);
}

const aiScene& read(Assimp::Importer& importer, const std::string& file,
                    std::unique_ptr<ModelFolder> io) {
    const ModelFolder& folder = *io;
    importer.SetIOHandler(io.release()); // which takes it over
    importer.SetPropertyInteger(AI_CONFIG_PP_RVC_FLAGS, static_cast<int>(left_out));
    importer.SetPropertyFloat(AI_CONFIG_PP_GSN_MAX_SMOOTHING_ANGLE, crease_deg);
    importer.SetPropertyBool(AI_CONFIG_IMPORT_NO_SKELETON_MESHES, true);
    const aiScene* scene = importer.ReadFile(file, steps);
    if (!folder.refused().empty())
        throw Refusal{fmt::format("the model asks for `{}`, which lies outside its own folder",
                                  on_one_line(folder.refused())),
                      "put all files of a model into one folder and save it anew"};
    if (scene == nullptr)
        throw Refusal{fmt::format("cannot be read as a 3D model ({})",
                                  on_one_line(importer.GetErrorString())),
                      save_again};
    if (scene->mRootNode == nullptr)
        throw Refusal{"holds no model", save_again};
    return *scene;
}

/// One mesh where one node puts it.
struct Instance {
    const aiMesh* mesh;
    glm::dmat4 model_from_mesh;
};

// Without recursion: a hostile file may nest as deep as it likes. Nor may a small file say the same
// mesh a million times over.
std::vector<Instance> instances_of(const aiScene& scene) {
    std::vector<Instance> instances;
    std::size_t faces = 0;
    std::vector<std::pair<const aiNode*, glm::dmat4>> open{{scene.mRootNode, glm::dmat4{1}}};
    while (!open.empty()) {
        const auto [node, above] = open.back();
        open.pop_back();
        const glm::dmat4 here = above * dmat4_of(node->mTransformation);
        for (unsigned i = 0; i < node->mNumMeshes; ++i) {
            const aiMesh* mesh = scene.mMeshes[node->mMeshes[i]];
            faces += mesh->mNumFaces;
            if (faces > most_model_triangles)
                throw Refusal{fmt::format("has more than {} triangles", most_model_triangles),
                              "simplify it in a 3D program"};
            instances.push_back({mesh, here});
        }
        for (unsigned i = node->mNumChildren; i-- > 0;)
            open.emplace_back(node->mChildren[i], here);
    }
    return instances;
}

/// Materials and their pictures, each read once.
class Surfaces {
public:
    Surfaces(const aiScene& scene, const ModelFolder& folder,
             std::map<std::string, double> strengths)
        : scene_{scene}, folder_{folder}, strengths_{std::move(strengths)} {}

    struct Surface {
        std::string name;
        shapes::Material material;
        unsigned uv_channel = 0;
    };

    const Surface& of(unsigned material) {
        const auto found = surfaces_.find(material);
        if (found != surfaces_.end())
            return found->second;
        return surfaces_.emplace(material, make(*scene_.mMaterials[material])).first->second;
    }

    std::vector<Image<Rgba8>> textures;

private:
    static glm::vec3 colour_of(const aiMaterial& material, const char* key, glm::vec3 otherwise) {
        aiColor4D colour;
        if (material.Get(key, 0, 0, colour) != AI_SUCCESS)
            return otherwise;
        const glm::vec3 rgb{colour.r, colour.g, colour.b};
        if (!finite(rgb))
            throw Refusal{"has a material whose colour is not a number", save_again};
        return rgb;
    }

    Surface make(const aiMaterial& from) {
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
            material.gloss = to_unit(1 - roughness);
        int shading = 0;
        if (from.Get(AI_MATKEY_SHADING_MODEL, shading) == AI_SUCCESS)
            material.lit = shading != aiShadingMode_NoShading;
        return surface;
    }

    float strength_of(const aiMaterial& material, const std::string& name) const {
        float strength = 1;
        if (material.Get(AI_MATKEY_EMISSIVE_INTENSITY, strength) != AI_SUCCESS) {
            const auto found = strengths_.find(name);
            strength = found == strengths_.end() ? 1.0f : static_cast<float>(found->second);
        }
        return std::isfinite(strength) ? std::max(strength, 0.0f) : 1.0f;
    }

    int texture_of(const aiMaterial& material, aiTextureType type, unsigned& uv_channel) {
        aiString path;
        if (material.GetTexture(type, 0, &path, nullptr, &uv_channel) != AI_SUCCESS)
            return -1;
        const std::string named = path.C_Str();
        if (const auto found = by_name_.find(named); found != by_name_.end())
            return found->second;
        textures.push_back(load(named));
        pixels_left_ -= static_cast<double>(textures.back().pixels().size());
        return by_name_[named] = static_cast<int>(textures.size()) - 1;
    }

    Image<Rgba8> load(const std::string& named) const {
        if (const aiTexture* embedded = scene_.GetEmbeddedTexture(named.c_str()))
            return embedded->mHeight == 0
                       ? decode(named, std::as_bytes(std::span{
                                           reinterpret_cast<const char*>(embedded->pcData),
                                           embedded->mWidth}))
                       : copy(named, *embedded);
        const auto place = folder_.find(named);
        if (!place)
            throw Refusal{
                fmt::format("the texture `{}` is not in the model's folder", on_one_line(named)),
                "put the picture beside the model, or save the model with its textures "
                "embedded"};
        const auto bytes = bytes_of(*place, most_model_bytes);
        if (!bytes)
            throw Refusal{fmt::format("the texture `{}` cannot be read", on_one_line(named)),
                          "check that the file may be read and is not too large"};
        return decode(named, *bytes);
    }

    Image<Rgba8> decode(const std::string& named, std::span<const std::byte> bytes) const {
        auto texture = decode_texture(bytes, pixels_left_);
        if (!texture)
            throw Refusal{fmt::format("the texture `{}` {}", on_one_line(named), texture.error()),
                          fmt::format("save it as PNG or JPEG; all textures together may have {:g} "
                                      "megapixels",
                                      most_texture_megapixels)};
        return std::move(*texture);
    }

    Image<Rgba8> copy(const std::string& named, const aiTexture& from) const {
        const double pixels = static_cast<double>(from.mWidth) * from.mHeight;
        if (pixels < 1 || pixels > pixels_left_)
            throw Refusal{
                fmt::format("the texture `{}` has {:.0f} pixels, more than there is room for",
                            on_one_line(named), pixels),
                "make it smaller"};
        Image<Rgba8> texture{static_cast<int>(from.mWidth), static_cast<int>(from.mHeight)};
        std::transform(from.pcData, from.pcData + texture.pixels().size(), texture.pixels().begin(),
                       [](const aiTexel& texel) {
                           return Rgba8{texel.r, texel.g, texel.b, texel.a};
                       });
        return texture;
    }

    const aiScene& scene_;
    const ModelFolder& folder_;
    std::map<std::string, double> strengths_;
    std::map<unsigned, Surface> surfaces_;
    std::map<std::string, int> by_name_;
    double pixels_left_ = most_texture_megapixels * 1e6;
};

/// Adds the triangles of one mesh, where a node puts it, to what has the same surface.
class Baker {
public:
    Baker(const Instance& instance, unsigned uv_channel, bool colours_are_linear,
          shapes::Mesh& into)
        : mesh_{*instance.mesh},
          model_from_mesh_{instance.model_from_mesh}, has_uv_{mesh_.HasTextureCoords(uv_channel)},
          uv_channel_{uv_channel}, colours_are_linear_{colours_are_linear}, into_{into},
          baked_(mesh_.mNumVertices, unbaked) {
        const glm::dmat3 turned{model_from_mesh_};
        const double volume = glm::determinant(turned);
        mirrored_ = volume < 0;
        if (volume != 0)
            normal_from_normal_ = glm::transpose(glm::inverse(turned));
    }

    void bake() {
        for (unsigned i = 0; i < mesh_.mNumFaces; ++i) {
            const aiFace& face = mesh_.mFaces[i];
            if (face.mNumIndices == 3) // what Triangulate leaves otherwise are points and lines
                bake(face.mIndices[0], face.mIndices[mirrored_ ? 2 : 1],
                     face.mIndices[mirrored_ ? 1 : 2]);
        }
    }

private:
    static constexpr std::uint32_t unbaked = std::numeric_limits<std::uint32_t>::max();

    void bake(unsigned a, unsigned b, unsigned c) {
        const glm::vec3 at_a = position(a);
        const glm::vec3 at_b = position(b);
        const glm::vec3 at_c = position(c);
        const glm::dvec3 across =
            glm::cross(glm::dvec3{at_b} - glm::dvec3{at_a}, glm::dvec3{at_c} - glm::dvec3{at_a});
        const double twice_area = glm::length(across);
        if (!(twice_area > 0))
            return;
        const glm::vec3 facing{across / twice_area};
        for (const unsigned i : {a, b, c})
            into_.indices.push_back(vertex(i, facing));
    }

    [[nodiscard]] glm::vec3 position(unsigned i) const {
        const aiVector3D& from = mesh_.mVertices[i];
        const glm::dvec3 at{model_from_mesh_ * glm::dvec4{from.x, from.y, from.z, 1}};
        // Written so that NaN is refused too.
        if (!(std::abs(at.x) <= farthest_model_vertex && std::abs(at.y) <= farthest_model_vertex &&
              std::abs(at.z) <= farthest_model_vertex))
            throw Refusal{
                fmt::format("has a vertex that is not a number or lies more than {:g} units "
                            "from its origin",
                            farthest_model_vertex),
                save_again};
        return glm::vec3{at};
    }

    std::uint32_t vertex(unsigned i, const glm::vec3& facing) {
        if (baked_[i] == unbaked) {
            baked_[i] = static_cast<std::uint32_t>(into_.vertices.size());
            into_.vertices.push_back({.position_m = position(i),
                                      .normal = normal(i, facing),
                                      .colour = colour(i),
                                      .uv = uv(i)});
        }
        return baked_[i];
    }

    [[nodiscard]] glm::vec3 normal(unsigned i, const glm::vec3& facing) const {
        if (!mesh_.HasNormals())
            return facing;
        const aiVector3D& from = mesh_.mNormals[i];
        const glm::dvec3 turned = normal_from_normal_ * glm::dvec3{from.x, from.y, from.z};
        const double length = glm::length(turned);
        if (!(length > 0) || !std::isfinite(length))
            return facing;
        return glm::vec3{turned / length};
    }

    [[nodiscard]] glm::vec3 colour(unsigned i) const {
        if (!mesh_.HasVertexColors(0))
            return glm::vec3{1};
        const aiColor4D& from = mesh_.mColors[0][i];
        const glm::vec3 colour{from.r, from.g, from.b};
        if (!finite(colour))
            throw Refusal{"has a vertex whose colour is not a number", save_again};
        const glm::vec3 unit = glm::clamp(colour, 0.0f, 1.0f);
        if (colours_are_linear_)
            return unit;
        return {linear_from_srgb(unit.r), linear_from_srgb(unit.g), linear_from_srgb(unit.b)};
    }

    [[nodiscard]] glm::vec2 uv(unsigned i) const {
        if (!has_uv_)
            return glm::vec2{0};
        const aiVector3D& from = mesh_.mTextureCoords[uv_channel_][i];
        const glm::vec2 at{from.x, from.y};
        if (!finite(at))
            throw Refusal{"has a texture coordinate that is not a number", save_again};
        return at;
    }

    const aiMesh& mesh_;
    glm::dmat4 model_from_mesh_;
    glm::dmat3 normal_from_normal_{1};
    bool mirrored_ = false;
    bool has_uv_;
    unsigned uv_channel_;
    bool colours_are_linear_;
    shapes::Mesh& into_;
    std::vector<std::uint32_t> baked_;
};

// One part a material, so that a model of a thousand pieces is not drawn in a thousand strokes.
// A mesh without texture coordinates shows its material's plain colour.
std::vector<Part> parts_of(const aiScene& scene, Surfaces& surfaces, const fs::path& file) {
    const std::string extension = file.extension().string();
    const bool is_gltf = extension == ".glb" || extension == ".gltf";
    std::vector<Part> parts;
    std::map<std::pair<unsigned, bool>, std::size_t> place_of;
    for (const Instance& instance : instances_of(scene)) {
        const unsigned material = instance.mesh->mMaterialIndex;
        const Surfaces::Surface& surface = surfaces.of(material);
        const bool textured =
            surface.material.texture >= 0 && instance.mesh->HasTextureCoords(surface.uv_channel);
        const auto [place, is_new] = place_of.try_emplace({material, textured}, parts.size());
        if (is_new) {
            parts.push_back({.name = fmt::format("{}: {}", file.filename().string(), surface.name),
                             .mesh = {},
                             .material = surface.material});
            if (!textured)
                parts.back().material.texture = -1;
        }
        Baker{instance, surface.uv_channel, is_gltf, parts[place->second].mesh}.bake();
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
    if (fs::file_size(file, failed) > most_model_bytes || failed)
        throw Refusal{fmt::format("is larger than {} MB", most_model_bytes >> 20),
                      "simplify the model in a 3D program"};

    const ModelFolder folder{file, most_model_bytes};
    Assimp::Importer importer;
    const aiScene& scene = read(importer, file, std::make_unique<ModelFolder>(folder));
    Surfaces surfaces{scene, folder, emission_strengths(file)};
    ImportedModel model;
    model.parts = parts_of(scene, surfaces, file);
    if (model.parts.empty())
        throw Refusal{"holds no triangles", "use a model with surfaces, not points or lines alone"};
    model.textures = std::move(surfaces.textures);
    model.lowest = std::numeric_limits<double>::infinity();
    for (const Part& part : model.parts) {
        model.triangles += part.mesh.indices.size() / 3;
        for (const shapes::Vertex& vertex : part.mesh.vertices)
            model.lowest = std::min(model.lowest, static_cast<double>(vertex.position_m.y));
    }
    return model;
}

} // namespace

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
        return refuse(fmt::format("cannot be read as a 3D model ({})", on_one_line(failure.what())),
                      save_again);
    }
}

glm::dmat4 world_from_model(const Model& model, double lowest) {
    glm::dmat4 world = glm::translate(glm::dmat4{1}, engine_from_mark(model.place));
    world = glm::rotate(world, rad_from_deg(model.turn_deg), glm::dvec3{0, 1, 0});
    world = glm::scale(world, glm::dvec3{model.scale});
    return glm::translate(world, glm::dvec3{0, -lowest, 0});
}

} // namespace backrow::scene
