#include "stage/import_model.h"

#include "../scene_file/scene_folder.h"

#include "base/colour.h"
#include "base/image_files.h"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include <glm/geometric.hpp>

#include <cstring>
#include <filesystem>
#include <string>
#include <vector>

using Catch::Matchers::WithinAbs;

namespace backrow::stage {

using namespace scene;
namespace {

namespace fs = std::filesystem;

std::string as_text(const Bytes& bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

template <class T>
std::string as_text(const std::vector<T>& values) {
    return {reinterpret_cast<const char*>(values.data()), values.size() * sizeof(T)};
}

const std::string square_obj = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nf 1 2 3 4\n";

/// A glTF of one triangle (0 0 0, 1 0 0, 0 1 0) in x.bin, under the given nodes and materials.
std::string triangle_gltf(const scene_file::SceneFolder& folder, const std::string& nodes,
                          const std::string& scene_nodes = "0", const std::string& materials = "",
                          const std::string& bin = "x.bin") {
    const std::vector<float> corners{0, 0, 0, 1, 0, 0, 0, 1, 0};
    folder.write("x.bin", as_text(corners));
    return fmt::format(
        R"({{"asset": {{"version": "2.0"}}, "scene": 0, "scenes": [{{"nodes": [{}]}}], "nodes": [{}],
            "meshes": [{{"primitives": [{{"attributes": {{"POSITION": 0}}{}}}]}}], {}
            "accessors": [{{"bufferView": 0, "componentType": 5126, "count": 3, "type": "VEC3",
                            "min": [0, 0, 0], "max": [1, 1, 0]}}],
            "bufferViews": [{{"buffer": 0, "byteLength": 36}}],
            "buffers": [{{"uri": "{}", "byteLength": 36}}]}})",
        scene_nodes, nodes, materials.empty() ? "" : R"(, "material": 0)",
        materials.empty() ? "" : R"("materials": [)" + materials + "],", bin);
}

std::vector<glm::vec3> corners_of(const ImportedModel& model) {
    std::vector<glm::vec3> corners;
    for (const Part& part : model.parts)
        for (const std::uint32_t i : part.mesh.indices)
            corners.push_back(part.mesh.vertices[i].position_m);
    return corners;
}

glm::vec3 facing_of(const shapes::Mesh& mesh) {
    const auto at = [&](std::size_t i) { return mesh.vertices[mesh.indices[i]].position_m; };
    return glm::normalize(glm::cross(at(1) - at(0), at(2) - at(0)));
}

std::string refusal_of(const scene_file::SceneFolder& folder, const std::string& file) {
    const auto model = import_model(file);
    REQUIRE_FALSE(model);
    REQUIRE(model.error().size() == 1);
    CHECK(model.error().front().where.file == file);
    CHECK(model.error().front().where.line == 0);
    CHECK_FALSE(model.error().front().what.empty());
    CHECK_FALSE(model.error().front().mend.empty());
    return folder.lines(model.error()).front();
}

}  // namespace

TEST_CASE("a square in a file becomes two triangles with the normal it lacked",
          "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto model = import_model(folder.write("square.obj", square_obj));
    REQUIRE(model);
    REQUIRE(model->parts.size() == 1);
    CHECK(model->triangles == 2);
    CHECK(model->lowest == 0);
    for (const shapes::Vertex& vertex : model->parts[0].mesh.vertices)
        CHECK(vertex.normal == glm::vec3{0, 0, 1});
    CHECK(model->parts[0].material.texture == -1);
    CHECK(model->parts[0].person == -1);
}

TEST_CASE("a box without normals keeps its edges", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto model = import_model(folder.write(
        "box.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 0 1\nv 1 0 1\nv 1 1 1\nv 0 1 1\n"
                   "f 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 3 4 8 7\nf 1 5 8 4\nf 2 3 7 6\n"));
    REQUIRE(model);
    CHECK(model->triangles == 12);
    const shapes::Mesh& mesh = model->parts[0].mesh;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        shapes::Mesh one{mesh.vertices,
                         {mesh.indices.begin() + static_cast<std::ptrdiff_t>(i),
                          mesh.indices.begin() + static_cast<std::ptrdiff_t>(i) + 3}};
        for (const std::uint32_t corner : one.indices)
            // Normals are floats of unit length: a few units in the last place.
            CHECK(glm::distance(mesh.vertices[corner].normal, facing_of(one)) < 1e-6f);
    }
}

TEST_CASE("lines, points and triangles without area are left out", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto model = import_model(
        folder.write("mixed.obj", square_obj + "v 2 0 0\nv 3 0 0\nf 1 2 5\nf 1 5 6\nl 1 2\np 3\n"));
    REQUIRE(model);
    CHECK(model->triangles == 2);
}

TEST_CASE("nodes carry their meshes along, one inside the other", "[stage][property]") {
    const scene_file::SceneFolder folder;
    // Outer: 10 to the right. Inner: a quarter turn about +y (x goes to −z), doubled.
    const std::string file = folder.write(
        "nodes.gltf", triangle_gltf(folder, R"({"translation": [10, 0, 0], "children": [1]},
        {"rotation": [0, 0.70710678118654752, 0, 0.70710678118654752], "scale": [2, 2, 2],
         "mesh": 0})"));
    const auto model = import_model(file);
    REQUIRE(model);
    const std::vector<glm::vec3> corners = corners_of(*model);
    REQUIRE(corners.size() == 3);
    const std::vector<glm::vec3> expected{{10, 0, 0}, {10, 0, -2}, {10, 2, 0}};
    for (std::size_t i = 0; i < 3; ++i)
        // Assimp makes a float matrix of the turn: 2⁻²³ of the greatest coordinate, a few times.
        CHECK(glm::distance(corners[i], expected[i]) < 1e-5f);
    CHECK(glm::distance(facing_of(model->parts[0].mesh), glm::vec3{1, 0, 0}) < 1e-5f);
    CHECK(glm::distance(model->parts[0].mesh.vertices[0].normal, glm::vec3{1, 0, 0}) < 1e-5f);
}

TEST_CASE("a mirrored mesh still shows its outside", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto model = import_model(
        folder.write("mirror.gltf", triangle_gltf(folder, R"({"scale": [-1, 1, 1], "mesh": 0})")));
    REQUIRE(model);
    const shapes::Mesh& mesh = model->parts[0].mesh;
    CHECK(glm::dot(facing_of(mesh), mesh.vertices[0].normal) > 0.99f);
}

TEST_CASE("a mesh that stands in two nodes is there twice", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto model = import_model(folder.write(
        "twice.gltf",
        triangle_gltf(folder, R"({"mesh": 0}, {"mesh": 0, "translation": [0, -3, 0]})", "0, 1")));
    REQUIRE(model);
    CHECK(model->triangles == 2);
    CHECK(model->parts.size() == 1);
    CHECK(model->lowest == -3);
}

TEST_CASE("colours of a scan are sRGB, numbers of a material linear", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto scan = import_model(folder.write(
        "scan.ply", "ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\nproperty float y\n"
                    "property float z\nproperty uchar red\nproperty uchar green\n"
                    "property uchar blue\nelement face 1\nproperty list uchar int vertex_indices\n"
                    "end_header\n0 0 0 188 0 255\n1 0 0 188 0 255\n0 1 0 188 0 255\n3 0 1 2\n"));
    REQUIRE(scan);
    const glm::vec3 colour = scan->parts[0].mesh.vertices[0].colour;
    // One float rounding in each of two programs that divide by 255.
    CHECK_THAT(colour.r, WithinAbs(linear_from_srgb(188.0f / 255.0f), 1e-6));
    CHECK(colour.g == 0);
    CHECK(colour.b == 1);

    folder.write("wood.mtl", "newmtl wood\nKd 0.5 0.25 0.125\n");
    const auto bench =
        import_model(folder.write("bench.obj", "mtllib wood.mtl\nusemtl wood\n" + square_obj));
    REQUIRE(bench);
    CHECK(bench->parts[0].material.base_colour == glm::vec3{0.5f, 0.25f, 0.125f});
    CHECK(bench->parts[0].name == "bench.obj: wood");
}

TEST_CASE("a picture on a surface keeps its pixels and stands upright", "[stage][property]") {
    const scene_file::SceneFolder folder;
    Image<Rgba8> picture{2, 2};
    picture.at(0, 0) = {255, 0, 0, 255};
    picture.at(1, 0) = {0, 255, 0, 255};
    picture.at(0, 1) = {0, 0, 255, 255};
    picture.at(1, 1) = {9, 8, 7, 255};
    folder.write("pictures/Cloth.PNG", as_text(png_bytes(picture)));
    const std::string obj = "mtllib cloth.mtl\nusemtl cloth\nv 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n"
                            "vt 0 0\nvt 1 0\nvt 1 1\nvt 0 1\nf 1/1 2/2 3/3 4/4\n";

    SECTION("named from the model's folder") {
        folder.write("cloth.mtl", "newmtl cloth\nKd 1 1 1\nmap_Kd pictures/Cloth.PNG\n");
    }
    SECTION("left beside the model, with the path of another machine and in other letters") {
        folder.write("cloth.png", as_text(png_bytes(picture)));
        folder.write("cloth.mtl", "newmtl cloth\nKd 1 1 1\nmap_Kd C:\\work\\CLOTH.PNG\n");
    }
    const auto model = import_model(folder.write("cloth.obj", obj));
    REQUIRE(model);
    REQUIRE(model->textures.size() == 1);
    CHECK(model->textures[0].pixels() == picture.pixels());
    CHECK(model->parts[0].material.texture == 0);
    // OBJ counts v from the bottom, the stage from the top row.
    for (const shapes::Vertex& vertex : model->parts[0].mesh.vertices)
        CHECK(vertex.uv == glm::vec2{vertex.position_m.x, 1 - vertex.position_m.y});
}

TEST_CASE("a mesh without texture coordinates shows the plain colour", "[stage][property]") {
    const scene_file::SceneFolder folder;
    folder.write("cloth.png", as_text(png_bytes(Image<Rgba8>{1, 1})));
    folder.write("cloth.mtl", "newmtl cloth\nmap_Kd cloth.png\n");
    const auto model =
        import_model(folder.write("plain.obj", "mtllib cloth.mtl\nusemtl cloth\n" + square_obj));
    REQUIRE(model);
    CHECK(model->parts[0].material.texture == -1);
}

TEST_CASE("a lamp keeps the strength that its file gives", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto lamp = [&](const std::string& name, const std::string& extensions) {
        return import_model(
            folder.write("lamp.gltf", triangle_gltf(folder, R"({"mesh": 0})", "0",
                                                    R"({"name": ")" + name +
                                                        R"(", "emissiveFactor": [1, 0.5, 0.25])" +
                                                        extensions + "}")));
    };
    const std::string strong =
        R"(, "extensions": {"KHR_materials_emissive_strength": {"emissiveStrength": 8}})";
    const auto plain = lamp("bulb", "");
    REQUIRE(plain);
    CHECK(plain->parts[0].material.emission == glm::vec3{1, 0.5f, 0.25f});
    for (const char* name : {"bulb", ""}) {
        const auto bright = lamp(name, strong);
        REQUIRE(bright);
        CHECK(bright->parts[0].material.emission == glm::vec3{8, 4, 2});
    }
}

TEST_CASE("model files that cannot be used are refused as a whole", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto refused = [&](const std::string& name, const std::string& text) {
        return refusal_of(folder, folder.write(name, text));
    };
    CHECK(refusal_of(folder, folder.path("nowhere.glb")) ==
          "nowhere.glb: this model file is not there; check the name; it is counted from the "
          "scene's folder");
    fs::create_directory(folder.path("folder.obj"));
    CHECK(refusal_of(folder, folder.path("folder.obj")) ==
          "folder.obj: is not a file; name a model file such as .glb or .obj");
    CHECK_THAT(refused("noise.glb", "\x01\x02\xff garbage \x80"),
               Catch::StartsWith("noise.glb: cannot be read as a 3D model ("));
    CHECK_THAT(refused("notes.txt", "a list of things to bring"),
               Catch::StartsWith("notes.txt: cannot be read as a 3D model ("));
    CHECK_THAT(refused("empty.ply", ""), Catch::Contains("empty"));
    CHECK_THAT(refused("nan.obj", "v nan 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n"),
               Catch::Contains("not a number"));
    CHECK_THAT(refused("far.obj", "v 1e30 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n"),
               Catch::Contains("more than 1e+07 units"));
    CHECK_THAT(refused("index.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n"),
               Catch::Contains("index"));
    CHECK_THAT(refused("promise.off", "OFF\n99999999999 1 0\n0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n"),
               Catch::Contains("promises more vertices and faces than it holds"));
    const std::string ply = "ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\n";
    CHECK_THAT(refused("endless.ply", ply), Catch::Contains("has a PLY header without an end"));
    CHECK_THAT(refused("torn.ply", ply + "property flo%t y\nend_header\n0 0\n"),
               Catch::Contains("has a damaged PLY header, in its line 5"));
    CHECK_THAT(refused("promise.ply", ply + "element face 999999999\nend_header\n0\n"),
               Catch::Contains("promises more vertices and faces than it holds"));
    // A face without corners sets off an assertion where Assimp has its assertions on.
    CHECK_THAT(refused("hollow.ply", ply + "property float y\nproperty float z\nelement face 1\n"
                                           "property list uchar int vertex_indices\nend_header\n"
                                           "0 0 0\n1 0 0\n0 1 0\n0\n"),
               Catch::StartsWith("hollow.ply: cannot be read as a 3D model ("));
    CHECK_THAT(refused("line.obj", "v 0 0 0\nv 1 0 0\nl 1 2\n"),
               Catch::Contains("holds no triangles"));
}

TEST_CASE("a model cut short is refused wherever it is cut", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const std::vector<float> corners{0, 0, 0, 1, 0, 0, 0, 1, 0};
    std::string json =
        R"({"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":[{"mesh":0}],)"
        R"("meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],)"
        R"("accessors":[{"bufferView":0,"componentType":5126,"count":3,"type":"VEC3"}],)"
        R"("bufferViews":[{"buffer":0,"byteLength":36}],"buffers":[{"byteLength":36}]})";
    json.resize((json.size() + 3) / 4 * 4, ' ');
    const auto word = [](std::size_t value) {
        const auto narrow = static_cast<std::uint32_t>(value);
        return std::string(reinterpret_cast<const char*>(&narrow), 4);
    };
    const std::string glb = "glTF" + word(2) + word(12 + 8 + json.size() + 8 + 36) +
                            word(json.size()) + "JSON" + json + word(36) + std::string("BIN\0", 4) +
                            as_text(corners);
    REQUIRE(import_model(folder.write("whole.glb", glb)));
    for (std::size_t length = 0; length < glb.size(); length += 29) {
        CAPTURE(length);
        refusal_of(folder, folder.write("cut.glb", glb.substr(0, length)));
    }
}

TEST_CASE("a model reads nothing outside its own folder", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const std::string secret = folder.write("secret.png", as_text(png_bytes(Image<Rgba8>{1, 1})));
    const std::string obj = "mtllib m.mtl\nusemtl m\n" + square_obj;

    SECTION("a texture") {
        folder.write("models/m.mtl", "newmtl m\nmap_Kd ../secret.png\n");
        CHECK_THAT(refusal_of(folder, folder.write("models/m.obj", obj)),
                   Catch::StartsWith("models/m.obj: the texture `../secret.png` is not in the "
                                     "model's folder; put the picture beside the model"));
    }
    SECTION("a texture with its full name") {
        folder.write("models/m.mtl", "newmtl m\nmap_Kd " + secret + "\n");
        CHECK_THAT(refusal_of(folder, folder.write("models/m.obj", obj)),
                   Catch::Contains("is not in the model's folder"));
    }
    SECTION("a link that leads out") {
        fs::create_directory(folder.path("models"));
        fs::create_symlink(secret, folder.path("models/link.png"));
        folder.write("models/m.mtl", "newmtl m\nmap_Kd link.png\n");
        CHECK_THAT(refusal_of(folder, folder.write("models/m.obj", obj)),
                   Catch::Contains("is not in the model's folder"));
    }
    SECTION("a buffer") {
        const std::string gltf = triangle_gltf(folder, R"({"mesh": 0})", "0", "", "../x.bin");
        CHECK_THAT(refusal_of(folder, folder.write("models/m.gltf", gltf)),
                   Catch::Contains("x.bin`, which lies outside its own folder; put all files"));
    }
}

TEST_CASE("a texture that is missing, damaged or huge is told, not left white",
          "[stage][property]") {
    const scene_file::SceneFolder folder;
    const auto with_texture = [&](const std::string& bytes) {
        if (!bytes.empty())
            folder.write("t.png", bytes);
        folder.write("t.mtl", "newmtl t\nmap_Kd t.png\n");
        return refusal_of(folder, folder.write("t.obj", "mtllib t.mtl\nusemtl t\n" + square_obj));
    };
    CHECK_THAT(with_texture(""),
               Catch::Contains("the texture `t.png` is not in the model's folder"));
    CHECK_THAT(with_texture("no picture"),
               Catch::Contains("the texture `t.png` is not a PNG, JPEG, BMP or TGA picture"));

    std::string png = as_text(png_bytes(Image<Rgba8>{64, 64, {1, 2, 3, 255}}));
    CHECK_THAT(with_texture(png.substr(0, 60)), Catch::Contains("is damaged"));
    // The width and height stand big-endian at bytes 16 and 20 of a PNG: 16384 × 16384.
    png.replace(16, 8, std::string("\0\0\x40\0\0\0\x40\0", 8));
    CHECK_THAT(with_texture(png), Catch::Contains("16384 × 16384 pixels, more than there is room"));
}

TEST_CASE("a model too large is refused before it fills the memory", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const std::string file = folder.write("large.obj", square_obj);
    SECTION("in bytes") {
        fs::resize_file(file, most_model_bytes + 1);  // a hole, not written out
        CHECK(refusal_of(folder, file) ==
              "large.obj: is larger than 512 MB; simplify the model in a 3D program");
    }
    SECTION("in triangles, by naming one mesh over and over") {
        constexpr std::size_t corners = 3000;
        const std::size_t nodes = most_model_triangles / (corners / 3) + 1;
        std::vector<float> positions(3 * corners);
        for (std::size_t i = 0; i < positions.size(); ++i)
            positions[i] = static_cast<float>(i % 7);
        folder.write("many.bin", as_text(positions));
        nlohmann::json gltf{
            {"asset", {{"version", "2.0"}}},
            {"scene", 0},
            {"buffers", {{{"uri", "many.bin"}, {"byteLength", positions.size() * 4}}}},
            {"bufferViews", {{{"buffer", 0}, {"byteLength", positions.size() * 4}}}},
            {"accessors",
             {{{"bufferView", 0}, {"componentType", 5126}, {"count", corners}, {"type", "VEC3"}}}},
            {"meshes", {{{"primitives", {{{"attributes", {{"POSITION", 0}}}}}}}}}};
        for (std::size_t i = 0; i < nodes; ++i) {
            gltf["nodes"].push_back({{"mesh", 0}});
            gltf["scenes"][0]["nodes"].push_back(i);
        }
        CHECK(refusal_of(folder, folder.write("many.gltf", gltf.dump())) ==
              "many.gltf: has more than 5000000 triangles; simplify it in a 3D program");
    }
}

// Source: [TESTMODELS], which Debian installs to test Assimp, among them the textured box of the
// glTF sample models, a cube of 1 m about its origin.
TEST_CASE("sample models read, broken ones are refused", "[stage][published]") {
    const fs::path samples = "/usr/share/assimp/models";
    if (!fs::exists(samples)) {
        WARN("assimp-testmodels is not installed; its models were not tried");
        return;
    }
    const auto box =
        import_model((samples / "glTF2/BoxTextured-glTF-Binary/BoxTextured.glb").string());
    REQUIRE(box);
    CHECK(box->triangles == 12);
    CHECK(box->lowest == -0.5);
    CHECK(box->textures.size() == 1);
    // FBX states its unit: a cube of one centimetre, and one of a metre with its texture inside.
    const auto small = import_model((samples / "FBX/phong_cube.fbx").string());
    REQUIRE(small);
    CHECK(small->triangles == 12);
    CHECK(small->lowest == Approx(-0.005));
    const auto textured = import_model((samples / "FBX/box_orphant_embedded_texture.fbx").string());
    REQUIRE(textured);
    CHECK(textured->lowest == Approx(0.0).margin(1e-6));
    CHECK(textured->textures.size() == 1);

    for (const auto& entry : fs::directory_iterator{samples / "invalid"}) {
        CAPTURE(entry.path().string());
        const auto model = import_model(entry.path().string());
        if (!model)
            CHECK(model.error().size() == 1);
        else
            CHECK(model->triangles > 0);
    }
    for (const char* name :
         {"glTF2/RecursiveNodes/RecursiveNodes.gltf",
          "glTF2/BoxWithInfinites-glTF-Binary/BoxWithInfinites.glb",
          "glTF2/IndexOutOfRange/AllIndicesOutOfRange.gltf", "glTF2/MissingBin/BoxTextured.gltf"}) {
        CAPTURE(name);
        const auto model = import_model((samples / name).string());
        REQUIRE_FALSE(model);
        CHECK(model.error().size() == 1);
    }
}

}  // namespace backrow::stage
