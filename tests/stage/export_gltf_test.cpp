#include "stage/export_gltf.h"

#include "../scene_file/scene_folder.h"
#include "glb_reading.h"

#include "stage/import_model.h"

#include "shapes/quantise.h"

#include <catch2/catch.hpp>

#include <assimp/Importer.hpp>
#include <assimp/postprocess.h>
#include <assimp/scene.h>

#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>

#include <cmath>
#include <numbers>

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace backrow::stage {

using namespace scene;
namespace {

shapes::Mesh tetrahedron(float size_m, glm::vec3 colour) {
    const std::vector<glm::vec3> corners{{0, 0, 0}, {size_m, 0, 0}, {0, size_m, 0}, {0, 0, size_m}};
    shapes::Mesh mesh;
    for (const auto& [a, b, c] : {std::array{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}}) {
        const auto at = [&](int i) { return corners[static_cast<std::size_t>(i)]; };
        const glm::vec3 normal = glm::normalize(glm::cross(at(b) - at(a), at(c) - at(a)));
        for (const int i : {a, b, c}) {
            mesh.indices.push_back(static_cast<std::uint32_t>(mesh.vertices.size()));
            mesh.vertices.push_back({.position_m = at(i),
                                     .normal = normal,
                                     .colour = colour * (0.1f + 0.3f * static_cast<float>(i)),
                                     .uv = {0.1f * static_cast<float>(i), -1.5f}});
        }
    }
    return mesh;
}

/// Two equal people-like parts, a textured one, a lamp, a sky, and one without triangles.
Stage small_stage() {
    const glm::dmat4 one{1};
    Stage stage;
    stage.textures.emplace_back(3, 2, Rgba8{200, 100, 50, 255});
    stage.textures[0].at(2, 1) = {1, 2, 3, 255};
    const shapes::Mesh figure = tetrahedron(0.3f, {1, 0.5f, 0.7f});
    stage.parts.push_back({.name = "Odile body",
                           .mesh = figure,
                           .world_from_part = glm::translate(one, {-1.0 / 3, 0.1, -2}),
                           .material = {.gloss = 0.25f}});
    stage.parts.push_back(
        {.name = "Odile body",
         .mesh = figure,
         .world_from_part = glm::rotate(glm::translate(one, {1, 0, -3}), 0.3, glm::dvec3{0, 1, 0}),
         .material = {.gloss = 0.25f}});
    stage.parts.push_back({.name = "rug",
                           .mesh = tetrahedron(1.7f, glm::vec3{1}),
                           .material = {.base_colour = {0.2f, 0.4f, 0.6f}, .texture = 0}});
    stage.parts.push_back({.name = "lamp",
                           .mesh = tetrahedron(0.1f, glm::vec3{1}),
                           .material = {.emission = {12, 6, 3}}});
    stage.parts.push_back(
        {.name = "sky", .mesh = tetrahedron(900, glm::vec3{0.8f}), .material = {.lit = false}});
    stage.parts.push_back({.name = "nothing"});
    return stage;
}

CameraView small_view() {
    CameraView view;
    view.position_m = {0.25, 1.5, 4.5};
    view.look_at_m = {0, 1, 0};
    view.forward = glm::normalize(view.look_at_m - view.position_m);
    view.right = glm::normalize(glm::cross(view.forward, glm::dvec3{0, 1, 0}));
    view.up = glm::cross(view.right, view.forward);
    return view;
}

Glb exported(const Stage& stage) {
    const auto bytes = glb_from_stage(stage, small_view());
    REQUIRE(bytes);
    return glb_from(*bytes);
}

const nlohmann::json& node_named(const Glb& glb, const std::string& name) {
    for (const auto& node : glb.json["nodes"])
        if (node["name"] == name)
            return node;
    FAIL("no node " << name);
    return glb.json;
}

const nlohmann::json& primitive_of(const Glb& glb, const nlohmann::json& node) {
    return glb.json["meshes"][node["mesh"].get<std::size_t>()]["primitives"][0];
}

const nlohmann::json& material_of(const Glb& glb, const std::string& name) {
    return glb
        .json["materials"][primitive_of(glb, node_named(glb, name))["material"].get<std::size_t>()];
}

}  // namespace

TEST_CASE("the export keeps every rule of glTF 2.0 that readers rely on", "[stage][property]") {
    CHECK(broken_rules(exported(small_stage())) == std::vector<std::string>{});
    Stage empty;
    const Glb glb = exported(empty);
    CHECK(glb.json["nodes"].size() == 1);
    CHECK_FALSE(glb.json.contains("meshes"));
    CHECK_FALSE(glb.json.contains("extensionsUsed"));
}

TEST_CASE("the rules notice what is wrong", "[stage][property]") {
    Glb glb = exported(small_stage());
    SECTION("a bound that is not the bound") {
        glb.json["accessors"][0]["min"][0] = -5;
    }
    SECTION("an accessor longer than its view") {
        glb.json["accessors"][2]["count"] = 13;
    }
    SECTION("an array off its boundary") {
        glb.json["bufferViews"][1]["byteOffset"] = 146;
    }
    SECTION("an extension not listed") {
        glb.json.erase("extensionsUsed");
    }
    SECTION("an index past the end") {
        glb.binary[glb.json["bufferViews"][3]["byteOffset"]] = std::byte{99};
    }
    SECTION("two nodes of one name") {
        glb.json["nodes"][1]["name"] = "Odile body";
    }
    CHECK_FALSE(broken_rules(glb).empty());
}

TEST_CASE("the export holds exactly the stage's triangles", "[stage][property]") {
    const Stage stage = small_stage();
    const Glb glb = exported(stage);
    CHECK(glb.json["asset"]["generator"] == "Backrow");
    const std::vector<std::string> names{"Odile body", "Odile body (2)", "rug", "lamp",
                                         "sky",        "camera"};
    REQUIRE(glb.json["nodes"].size() == names.size());
    for (std::size_t part = 0; part + 1 < names.size(); ++part) {
        CAPTURE(names[part]);
        const auto& node = glb.json["nodes"][part];
        CHECK(node["name"] == names[part]);
        const auto& primitive = primitive_of(glb, node);
        const shapes::Mesh& mesh = stage.parts[part].mesh;
        CHECK(indices_of(glb, primitive["indices"].get<std::size_t>()) == mesh.indices);

        const auto& attributes = primitive["attributes"];
        const auto positions = numbers_of<float>(glb, attributes["POSITION"].get<std::size_t>(), 3);
        const auto normals = numbers_of<float>(glb, attributes["NORMAL"].get<std::size_t>(), 3);
        const auto colours =
            numbers_of<std::uint16_t>(glb, attributes["COLOR_0"].get<std::size_t>(), 4);
        REQUIRE(positions.size() == 3 * mesh.vertices.size());
        for (std::size_t v = 0; v < mesh.vertices.size(); ++v) {
            const shapes::Vertex& vertex = mesh.vertices[v];
            for (int i = 0; i < 3; ++i) {
                const auto at = static_cast<std::size_t>(i);
                CHECK(positions[3 * v + at] == vertex.position_m[i]);
                // Brought to unit length once more: the last place of a float.
                CHECK_THAT(normals[3 * v + at], WithinAbs(vertex.normal[i], 1.2e-7));
                CHECK(colours[4 * v + at] == shapes::unorm16_from_unit(vertex.colour[i]));
            }
            CHECK(colours[4 * v + 3] == 65535);
        }
        const bool textured = stage.parts[part].material.texture >= 0;
        REQUIRE(attributes.contains("TEXCOORD_0") == textured);
        if (textured) {
            const auto uvs = numbers_of<float>(glb, attributes["TEXCOORD_0"].get<std::size_t>(), 2);
            for (std::size_t v = 0; v < mesh.vertices.size(); ++v)
                CHECK(glm::vec2{uvs[2 * v], uvs[2 * v + 1]} == mesh.vertices[v].uv);
        }
        const glm::dmat4 placed = stage.parts[part].world_from_part;
        if (node.contains("matrix")) {
            for (int i = 0; i < 16; ++i)
                CHECK(node["matrix"][static_cast<std::size_t>(i)].get<double>() ==
                      placed[i / 4][i % 4]);
        } else {
            CHECK(placed == glm::dmat4{1});
        }
    }
}

TEST_CASE("what is the same is written once", "[stage][property]") {
    const Glb glb = exported(small_stage());
    CHECK(node_named(glb, "Odile body")["mesh"] == node_named(glb, "Odile body (2)")["mesh"]);
    CHECK(glb.json["meshes"].size() == 4);
    CHECK(glb.json["materials"].size() == 4);
}

TEST_CASE("lamps glow in the export as strongly as in the picture", "[stage][property]") {
    const Glb glb = exported(small_stage());
    const auto& lamp = material_of(glb, "lamp");
    CHECK(lamp["emissiveFactor"] == nlohmann::json({1.0, 0.5, 0.25}));
    CHECK(lamp["extensions"]["KHR_materials_emissive_strength"]["emissiveStrength"] == 12.0);
    CHECK(lamp["doubleSided"] == true);
    CHECK(lamp["pbrMetallicRoughness"]["metallicFactor"] == 0);
    CHECK(material_of(glb, "Odile body")["pbrMetallicRoughness"]["roughnessFactor"] == 0.75);
    CHECK_FALSE(material_of(glb, "Odile body").contains("emissiveFactor"));
    CHECK(material_of(glb, "sky")["extensions"].contains("KHR_materials_unlit"));
    CHECK(glb.json["extensionsUsed"] ==
          nlohmann::json({"KHR_materials_emissive_strength", "KHR_materials_unlit"}));
    CHECK_FALSE(glb.json.contains("extensionsRequired"));
}

TEST_CASE("a texture goes along as PNG, repeated and without smaller copies", "[stage][property]") {
    const Glb glb = exported(small_stage());
    const auto& rug = material_of(glb, "rug")["pbrMetallicRoughness"];
    CHECK(rug["baseColorFactor"] == nlohmann::json({0.2f, 0.4f, 0.6f, 1.0}));
    CHECK(rug["baseColorTexture"]["index"] == 0);
    CHECK(glb.json["textures"][0]["source"] == 0);
    CHECK(glb.json["samplers"][0] ==
          nlohmann::json(
              {{"magFilter", 9729}, {"minFilter", 9729}, {"wrapS", 10497}, {"wrapT", 10497}}));
    const auto& image = glb.json["images"][0];
    CHECK(image["mimeType"] == "image/png");
    const auto& view = glb.json["bufferViews"][image["bufferView"].get<std::size_t>()];
    CHECK_FALSE(view.contains("target"));
    const std::size_t at = view["byteOffset"].get<std::size_t>();
    CHECK(std::string(reinterpret_cast<const char*>(glb.binary.data()) + at, 4) == "\x89PNG");
}

// Source: the contract of the camera node, yfov = 2·atan(sensor height / 2v), v = f s/(s − f); the
// numbers by hand: f = 50 mm, s = 4.5 m, v = 50·4500/4450 mm, 24 mm high.
TEST_CASE("the camera goes along with the field of view of its focus", "[stage][property]") {
    const Glb glb = exported(small_stage());
    REQUIRE(glb.json["cameras"].size() == 1);
    const auto& camera = glb.json["cameras"][0]["perspective"];
    const double v_mm = 50.0 * 4500.0 / 4450.0;
    CHECK_THAT(camera["yfov"].get<double>(), WithinRel(2 * std::atan(12.0 / v_mm), 1e-12));
    CHECK(camera["aspectRatio"] == 1.5);
    CHECK(camera["znear"] > 0);

    const auto m = node_named(glb, "camera")["matrix"].get<std::vector<double>>();
    const glm::dvec3 minus_z = -glm::dvec3{m[8], m[9], m[10]};
    const CameraView view = small_view();
    CHECK(glm::dvec3{m[12], m[13], m[14]} == view.position_m);
    // From the lens along −z lies what the camera looks at.
    const glm::dvec3 seen =
        view.position_m + minus_z * glm::distance(view.position_m, view.look_at_m);
    CHECK(glm::distance(seen, view.look_at_m) < 1e-12);
    CHECK(m[5] > 0.9);  // +y of the camera is up
}

TEST_CASE("another program reads the export as the same shapes in the same places",
          "[stage][property]") {
    const Stage stage = small_stage();
    const auto bytes = glb_from_stage(stage, small_view());
    REQUIRE(bytes);
    Assimp::Importer importer;
    const aiScene* read = importer.ReadFileFromMemory(
        bytes->data(), bytes->size(),
        aiProcess_ValidateDataStructure | aiProcess_PreTransformVertices, "glb");
    INFO(importer.GetErrorString());
    REQUIRE(read != nullptr);
    std::vector<glm::dvec3> theirs;
    for (unsigned m = 0; m < read->mNumMeshes; ++m)
        for (unsigned f = 0; f < read->mMeshes[m]->mNumFaces; ++f)
            for (unsigned i = 0; i < 3; ++i) {
                const aiVector3D& at =
                    read->mMeshes[m]->mVertices[read->mMeshes[m]->mFaces[f].mIndices[i]];
                theirs.emplace_back(at.x, at.y, at.z);
            }
    std::size_t corners = 0;
    for (const Part& part : stage.parts)
        for (const std::uint32_t i : part.mesh.indices) {
            ++corners;
            const glm::dvec3 ours{part.world_from_part *
                                  glm::dvec4{part.mesh.vertices[i].position_m, 1}};
            double nearest_m = INFINITY;
            for (const glm::dvec3& their : theirs)
                nearest_m = std::min(nearest_m, glm::distance(ours, their));
            // Assimp multiplies in floats: 2⁻²³ of coordinates up to 900 m in the sky, 4 m
            // elsewhere.
            CHECK(nearest_m < (part.name == "sky" ? 1e-4 : 1e-6));
        }
    CHECK(theirs.size() == corners);
    CHECK(read->mNumCameras == 1);
}

TEST_CASE("an export comes back through the model import as it went", "[stage][property]") {
    const Stage stage = small_stage();
    const auto bytes = glb_from_stage(stage, small_view());
    REQUIRE(bytes);
    const scene_file::SceneFolder folder;
    const auto model = import_model(
        folder.write("stage.glb", {reinterpret_cast<const char*>(bytes->data()), bytes->size()}));
    REQUIRE(model);
    CHECK(model->triangles == 5 * 4);
    REQUIRE(model->textures.size() == 1);
    CHECK(model->textures[0].pixels() == stage.textures[0].pixels());
    float brightest = 0;
    int unlit = 0;
    for (const Part& part : model->parts) {
        brightest = std::max(brightest, part.material.emission.r);
        unlit += part.material.lit ? 0 : 1;
    }
    CHECK(brightest == 12);
    CHECK(unlit == 1);
}

TEST_CASE("indices are as narrow as the mesh allows", "[stage][property]") {
    const auto component_of = [](std::size_t vertices) {
        Stage stage;
        stage.parts.push_back({.name = "strip"});
        shapes::Mesh& mesh = stage.parts[0].mesh;
        mesh.vertices.resize(vertices);
        const auto last = static_cast<std::uint32_t>(vertices - 1);
        mesh.indices = {0, 1, last};
        const Glb glb = exported(stage);
        CHECK(broken_rules(glb) == std::vector<std::string>{});
        const std::size_t indices =
            primitive_of(glb, glb.json["nodes"][0])["indices"].get<std::size_t>();
        CHECK(indices_of(glb, indices) == mesh.indices);
        return glb.json["accessors"][indices]["componentType"].get<int>();
    };
    CHECK(component_of(65535) == 5123);
    CHECK(component_of(65536) == 5125);
}

TEST_CASE("names in any encoding leave the file readable", "[stage][regression]") {
    Stage stage;
    stage.parts.push_back({.name = "caf\xe9", .mesh = tetrahedron(1, glm::vec3{1})});
    CHECK(broken_rules(exported(stage)) == std::vector<std::string>{});
}

TEST_CASE("the camera beside the picture holds what another renderer needs", "[stage][property]") {
    const auto json = nlohmann::json::parse(camera_json(small_view(), 1920, 1280));
    const std::set<std::string> keys{
        "focal_length_mm",  "f_number", "sensor_width_mm", "sensor_height_mm",
        "focus_distance_m", "position", "look_at",         "up",
        "width_px",         "height_px"};
    std::set<std::string> found;
    for (const auto& [key, value] : json.items())
        found.insert(key);
    CHECK(found == keys);
    CHECK(json["focal_length_mm"] == 50.0);
    CHECK(json["f_number"] == 1.2);
    CHECK(json["sensor_width_mm"] == 36.0);
    CHECK(json["sensor_height_mm"] == 24.0);
    CHECK(json["focus_distance_m"] == 4.5);
    CHECK(json["position"] == nlohmann::json({0.25, 1.5, 4.5}));
    CHECK(json["look_at"] == nlohmann::json({0.0, 1.0, 0.0}));
    CHECK(json["width_px"] == 1920);
    CHECK(json["height_px"] == 1280);
    const auto up = json["up"].get<std::vector<double>>();
    CHECK_THAT(std::hypot(up[0], up[1], up[2]), WithinRel(1.0, 1e-12));
}

}  // namespace backrow::stage
