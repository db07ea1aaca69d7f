#include "stage/export_gltf.h"

#include "stage/glb_chunk.h"
#include "stage/gltf_materials.h"

#include "shapes/quantise.h"

#include <fmt/format.h>

#include <glm/geometric.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <set>
#include <string_view>
#include <type_traits>
#include <unordered_map>

namespace backrow::stage {
namespace {

using shapes::Mesh;
using shapes::Vertex;

constexpr double near_plane_m = 0.01;
constexpr std::size_t json_bytes_per_part = 2000;  // generous: the JSON of a node and its mesh

static_assert(std::is_trivially_copyable_v<Vertex> && sizeof(Vertex) == 12 * sizeof(float),
              "meshes are compared by their bytes, so a vertex may have no gaps");

std::string_view bytes_of(const auto& array) {
    return {reinterpret_cast<const char*>(array.data()), array.size() * sizeof array.front()};
}

Json json_of(const glm::dvec3& v) {
    return {v.x, v.y, v.z};
}

bool has_triangles(const Part& part) {
    return !part.mesh.indices.empty();
}

/// Builds the document part by part.
class Document {
public:
    explicit Document(const Stage& stage) : materials_{stage, chunk_} {}

    void add(const Part& part) {
        const int material = materials_.index_of(part.material);
        Json node{{"name", unique(part.name)}, {"mesh", mesh_of(part, material)}};
        if (part.world_from_part != glm::dmat4{1})
            node["matrix"] = matrix_of(part.world_from_part);
        nodes_.push_back(std::move(node));
    }

    // The camera's own axes are glTF's: +x right, +y up, looking down −z.
    void add(const scene::CameraView& view) {
        const double half_height = view.sensor_height_mm / (2 * view.image_distance_mm());
        cameras_.push_back({{"type", "perspective"},
                            {"perspective",
                             {{"aspectRatio", view.sensor_width_mm / view.sensor_height_mm},
                              {"yfov", 2 * std::atan(half_height)},
                              {"znear", near_plane_m}}}});
        const glm::dmat4 world_from_camera{glm::dvec4{view.right, 0}, glm::dvec4{view.up, 0},
                                           glm::dvec4{-view.forward, 0},
                                           glm::dvec4{view.position_m, 1}};
        nodes_.push_back(
            {{"name", unique("camera")}, {"camera", 0}, {"matrix", matrix_of(world_from_camera)}});
    }

    [[nodiscard]] std::vector<std::byte> finish() {
        Json scene{{"name", "stage"}, {"nodes", Json::array()}};
        for (std::size_t i = 0; i < nodes_.size(); ++i)
            scene["nodes"].push_back(i);
        Json document{{"asset", {{"version", "2.0"}, {"generator", "Backrow"}}}};
        if (!materials_.extensions().empty())
            document["extensionsUsed"] = materials_.extensions();
        document["scene"] = 0;
        document["scenes"] = Json::array({std::move(scene)});
        // glTF allows no empty arrays.
        const auto put = [&](const char* key, Json array) {
            if (!array.empty())
                document[key] = std::move(array);
        };
        put("nodes", std::move(nodes_));
        put("cameras", std::move(cameras_));
        put("meshes", std::move(meshes_));
        put("materials", materials_.materials());
        put("textures", materials_.textures());
        put("samplers", materials_.samplers());
        put("images", materials_.images());
        put("accessors", chunk_.accessors());
        put("bufferViews", chunk_.buffer_views());
        if (!chunk_.bytes().empty())
            put("buffers", Json::array({Json{{"byteLength", chunk_.bytes().size()}}}));
        return glb_of(document, chunk_.bytes());
    }

private:
    static Json matrix_of(const glm::dmat4& m) {
        Json columns = Json::array();
        for (int column = 0; column < 4; ++column)
            for (int row = 0; row < 4; ++row)
                columns.push_back(m[column][row]);
        return columns;
    }

    std::string unique(const std::string& name) {
        std::string candidate = name;
        for (int i = 2; !names_.insert(candidate).second; ++i)
            candidate = fmt::format("{} ({})", name, i);
        return candidate;
    }

    int mesh_of(const Part& part, int material) {
        const auto [known, is_new] =
            known_meshes_.try_emplace({attributes_of(part), material}, meshes_.size());
        if (is_new) {
            const auto& [attributes, indices] = geometries_[known->first.first];
            meshes_.push_back({{"name", part.name},
                               {"primitives", Json::array({Json{{"attributes", attributes},
                                                                {"indices", indices},
                                                                {"material", material}}})}});
        }
        return static_cast<int>(known->second);
    }

    // The index into geometries_ of the part's triangles, written unless they stand there already.
    std::size_t attributes_of(const Part& part) {
        const Mesh& mesh = part.mesh;
        const bool textured = part.material.texture >= 0;
        const std::hash<std::string_view> hash;
        const std::size_t key = hash(bytes_of(mesh.vertices)) ^
                                (hash(bytes_of(mesh.indices)) << 1) ^
                                static_cast<std::size_t>(textured);
        const auto [first, last] = by_hash_.equal_range(key);
        for (auto it = first; it != last; ++it) {
            const Part& other = *it->second.part;
            if (bytes_of(other.mesh.vertices) == bytes_of(mesh.vertices) &&
                other.mesh.indices == mesh.indices && (other.material.texture >= 0) == textured)
                return it->second.geometry;
        }
        geometries_.push_back(write(mesh, textured));
        by_hash_.emplace(key, Written{&part, geometries_.size() - 1});
        return geometries_.size() - 1;
    }

    struct Geometry {
        Json attributes;
        int indices;
    };

    Geometry write(const Mesh& mesh, bool textured) {
        assert(std::ranges::all_of(mesh.indices,
                                   [&](std::uint32_t i) { return i < mesh.vertices.size(); }));
        std::vector<glm::vec3> positions_m;
        std::vector<glm::vec3> normals;
        std::vector<Colour16> colours;
        std::vector<glm::vec2> uvs;
        for (const Vertex& vertex : mesh.vertices) {
            positions_m.push_back(vertex.position_m);
            normals.push_back(glm::vec3{glm::normalize(glm::dvec3{vertex.normal})});
            colours.push_back({shapes::unorm16_from_unit(vertex.colour.r),
                               shapes::unorm16_from_unit(vertex.colour.g),
                               shapes::unorm16_from_unit(vertex.colour.b),
                               shapes::unorm16_from_unit(1)});
            if (textured)
                uvs.push_back(vertex.uv);
        }
        Geometry geometry;
        geometry.attributes = {{"POSITION", chunk_.add_positions(positions_m)},
                               {"NORMAL", chunk_.add_normals(normals)},
                               {"COLOR_0", chunk_.add_colours(colours)}};
        if (textured)
            geometry.attributes["TEXCOORD_0"] = chunk_.add_uvs(uvs);
        geometry.indices = chunk_.add_indices(mesh.indices, mesh.vertices.size());
        return geometry;
    }

    struct Written {
        const Part* part;
        std::size_t geometry;
    };

    GlbChunk chunk_;
    GltfMaterials materials_;
    Json nodes_ = Json::array();
    Json cameras_ = Json::array();
    Json meshes_ = Json::array();
    std::set<std::string> names_;
    std::vector<Geometry> geometries_;
    std::unordered_multimap<std::size_t, Written> by_hash_;
    std::map<std::pair<std::size_t, int>, std::size_t> known_meshes_;
};

// What the arrays can take at most, known before any memory is spent on them.
std::size_t most_bytes_of(const Stage& stage) {
    std::size_t bytes = 0;
    for (const Part& part : stage.parts)
        bytes += json_bytes_per_part + part.name.size() +
                 part.mesh.vertices.size() *
                     (2 * sizeof(glm::vec3) + sizeof(Colour16) + sizeof(glm::vec2)) +
                 part.mesh.indices.size() * sizeof(std::uint32_t);
    for (const Image<Rgba8>& texture : stage.textures)
        bytes += texture.pixels().size() * sizeof(Rgba8);
    return bytes;
}

}  // namespace

Made<std::vector<std::byte>> glb_from_stage(const Stage& stage, const scene::CameraView& view) {
    if (const std::size_t bytes = most_bytes_of(stage); bytes > most_glb_bytes)
        return tl::unexpected(MachineFailure{
            .what = fmt::format("the stage takes about {} MB, and a binary glTF file holds at most "
                                "{} MB",
                                bytes >> 20, most_glb_bytes >> 20),
            .mend = "export a scene with fewer people or models"});
    Document document{stage};
    for (const Part& part : stage.parts)
        if (has_triangles(part))
            document.add(part);
    document.add(view);
    return document.finish();
}

std::string camera_json(const scene::CameraView& view, int width_px, int height_px) {
    const Json json{{"focal_length_mm", view.lens.focal_length_mm},
                    {"f_number", view.lens.f_number},
                    {"sensor_width_mm", view.sensor_width_mm},
                    {"sensor_height_mm", view.sensor_height_mm},
                    {"focus_distance_m", view.lens.focus_m},
                    {"position", json_of(view.position_m)},
                    {"look_at", json_of(view.look_at_m)},
                    {"up", json_of(view.up)},
                    {"width_px", width_px},
                    {"height_px", height_px}};
    return json.dump(2) + "\n";
}

}  // namespace backrow::stage
