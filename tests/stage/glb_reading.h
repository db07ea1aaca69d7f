#pragma once

// A .glb taken apart by hand, and the rules of glTF 2.0 that a reader may rely on.
// Source: [GLTF2] §3.6 (accessors, alignment, bounds), §3.7 (meshes), §3.9 (materials), §3.10
// (cameras), §4.4 (binary layout).

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <set>
#include <string>
#include <vector>

namespace backrow::stage {

struct Glb {
    nlohmann::json json;
    std::vector<std::byte> binary;
    std::vector<std::string> broken;  ///< Rules of the container that do not hold.
};

inline Glb glb_from(const std::vector<std::byte>& bytes) {
    Glb glb;
    const auto word = [&](std::size_t at) {
        std::uint32_t value = 0;
        if (at + 4 <= bytes.size())
            std::memcpy(&value, bytes.data() + at, 4);
        return value;
    };
    const auto rule = [&](bool holds, const char* what) {
        if (!holds)
            glb.broken.emplace_back(what);
        return holds;
    };
    constexpr std::uint32_t gltf = 0x46546C67, json = 0x4E4F534A, bin = 0x004E4942;
    rule(word(0) == gltf, "magic");
    rule(word(4) == 2, "version");
    rule(word(8) == bytes.size(), "length");
    const std::size_t json_length = word(12);
    rule(word(16) == json, "first chunk is JSON");
    rule(json_length % 4 == 0, "JSON chunk padded");
    if (!rule(20 + json_length + 8 <= bytes.size(), "JSON chunk inside"))
        return glb;
    const auto* text = reinterpret_cast<const char*>(bytes.data()) + 20;
    glb.json = nlohmann::json::parse(text, text + json_length, nullptr, false);
    rule(!glb.json.is_discarded(), "JSON parses");
    const std::size_t bin_at = 20 + json_length;
    const std::size_t bin_length = word(bin_at);
    rule(word(bin_at + 4) == bin, "second chunk is BIN");
    rule(bin_length % 4 == 0, "BIN chunk padded");
    if (rule(bin_at + 8 + bin_length == bytes.size(), "BIN chunk ends the file"))
        glb.binary.assign(bytes.end() - static_cast<std::ptrdiff_t>(bin_length), bytes.end());
    return glb;
}

/// One accessor's numbers as they lie, all components in one row.
template <class T>
std::vector<T> numbers_of(const Glb& glb, std::size_t accessor, std::size_t components) {
    const auto& a = glb.json["accessors"][accessor];
    const auto& view = glb.json["bufferViews"][a["bufferView"].get<std::size_t>()];
    std::vector<T> numbers(a["count"].get<std::size_t>() * components);
    std::memcpy(numbers.data(), glb.binary.data() + view["byteOffset"].get<std::size_t>(),
                numbers.size() * sizeof(T));
    return numbers;
}

inline std::vector<std::uint32_t> indices_of(const Glb& glb, std::size_t accessor) {
    if (glb.json["accessors"][accessor]["componentType"] == 5125)
        return numbers_of<std::uint32_t>(glb, accessor, 1);
    const auto narrow = numbers_of<std::uint16_t>(glb, accessor, 1);
    return {narrow.begin(), narrow.end()};
}

namespace glb_rules {

struct Check {
    const Glb& glb;
    std::vector<std::string>& broken;

    void rule(bool holds, const std::string& what) const {
        if (!holds)
            broken.push_back(what);
    }

    void views() const {
        const auto& json = glb.json;
        const std::size_t buffer = json["buffers"][0]["byteLength"].get<std::size_t>();
        rule(buffer <= glb.binary.size() && glb.binary.size() < buffer + 4,
             "buffer fits the chunk");
        rule(!json["buffers"][0].contains("uri"), "the buffer is the chunk");
        for (const auto& view : json["bufferViews"])
            rule(view["buffer"] == 0 && view["byteLength"] > 0 &&
                     view["byteOffset"].get<std::size_t>() +
                             view["byteLength"].get<std::size_t>() <=
                         buffer,
                 "buffer view inside: " + view.dump());
    }

    void accessors() const {
        for (const auto& a : glb.json["accessors"]) {
            const std::size_t count = a["count"].get<std::size_t>();
            const std::size_t width = a["componentType"] == 5123 ? 2 : 4;
            const std::string type = a["type"].get<std::string>();
            const std::size_t components =
                type == "SCALAR" ? 1 : static_cast<std::size_t>(type.at(3) - '0');
            const auto& view = glb.json["bufferViews"][a["bufferView"].get<std::size_t>()];
            rule(count > 0, "accessor not empty");
            rule(view["byteOffset"].get<std::size_t>() % 4 == 0,
                 "accessor aligned: " + view.dump());
            rule(type == "SCALAR" || width * components % 4 == 0, "vertices aligned: " + a.dump());
            rule(count * width * components <= view["byteLength"].get<std::size_t>(),
                 "accessor inside its view: " + a.dump());
        }
    }

    void primitive(const nlohmann::json& p) const {
        const auto& json = glb.json;
        const auto& attributes = p["attributes"];
        const auto accessor = [&](const char* name) { return attributes[name].get<std::size_t>(); };
        const auto count = [&](std::size_t a) {
            return json["accessors"][a]["count"].get<std::size_t>();
        };
        const auto target = [&](std::size_t a) {
            const std::size_t view = json["accessors"][a]["bufferView"].get<std::size_t>();
            return json["bufferViews"][view].value("target", 0);
        };
        const std::size_t vertices = count(accessor("POSITION"));
        for (const auto& [name, value] : attributes.items()) {
            rule(count(value.get<std::size_t>()) == vertices, name + " for every vertex");
            rule(target(value.get<std::size_t>()) == 34962, name + " is a vertex buffer");
        }
        const auto positions = numbers_of<float>(glb, accessor("POSITION"), 3);
        std::vector<double> least(3, INFINITY), greatest(3, -INFINITY);
        for (std::size_t i = 0; i < positions.size(); ++i) {
            rule(std::isfinite(positions[i]), "finite position");
            least[i % 3] = std::min<double>(least[i % 3], positions[i]);
            greatest[i % 3] = std::max<double>(greatest[i % 3], positions[i]);
        }
        const auto& a = json["accessors"][accessor("POSITION")];
        rule(a["min"].get<std::vector<double>>() == least, "min of " + a.dump());
        rule(a["max"].get<std::vector<double>>() == greatest, "max of " + a.dump());

        const auto normals = numbers_of<float>(glb, accessor("NORMAL"), 3);
        for (std::size_t i = 0; i < normals.size(); i += 3) {
            const double length = std::hypot(normals[i], normals[i + 1], normals[i + 2]);
            // Three floats rounded to 2⁻²⁴ each.
            rule(std::abs(length - 1) < 1e-6, fmt::format("normal of length {}", length));
        }
        const auto& colour = json["accessors"][accessor("COLOR_0")];
        rule(colour.value("normalized", false), "colours are normalised");

        const std::size_t index = p["indices"].get<std::size_t>();
        const std::uint32_t anew =
            json["accessors"][index]["componentType"] == 5125 ? 0xFFFFFFFF : 0xFFFF;
        rule(target(index) == 34963, "indices are an index buffer");
        rule(count(index) % 3 == 0, "whole triangles");
        for (const std::uint32_t i : indices_of(glb, index))
            rule(i < vertices && i != anew, fmt::format("index {} of {}", i, vertices));
        rule(p["material"].get<std::size_t>() < json["materials"].size(), "material in range");
    }

    void materials() const {
        const auto unit = [&](const nlohmann::json& values, const std::string& what) {
            for (const auto& value : values)
                rule(value >= 0 && value <= 1, what + " in 0 … 1: " + values.dump());
        };
        std::set<std::string> used;
        for (const auto& m : glb.json["materials"]) {
            unit(m["pbrMetallicRoughness"]["baseColorFactor"], "base colour");
            unit({m["pbrMetallicRoughness"]["roughnessFactor"]}, "roughness");
            unit(m.value("emissiveFactor", nlohmann::json::array({0, 0, 0})), "emission");
            const auto extensions = m.value("extensions", nlohmann::json::object());
            for (const auto& [name, extension] : extensions.items())
                used.insert(name);
        }
        const auto listed = glb.json.value("extensionsUsed", std::set<std::string>{});
        rule(listed == used, "extensionsUsed lists what is used");
        rule(!glb.json.contains("extensionsUsed") || !listed.empty(), "no empty extension list");
    }

    void nodes() const {
        std::set<std::string> names;
        const auto& json = glb.json;
        for (const auto& node : json["nodes"]) {
            rule(names.insert(node["name"].get<std::string>()).second, "node name is unique");
            if (node.contains("mesh"))
                rule(node["mesh"].get<std::size_t>() < json["meshes"].size(), "mesh in range");
            if (node.contains("matrix")) {
                rule(node["matrix"].size() == 16, "matrix of 16");
                for (const int i : {3, 7, 11})
                    rule(node["matrix"][i] == 0, "matrix is affine");
                rule(node["matrix"][15] == 1, "matrix is affine");
            }
        }
        for (const auto& index : json["scenes"][0]["nodes"])
            rule(index.get<std::size_t>() < json["nodes"].size(), "scene's node in range");
    }
};

}  // namespace glb_rules

/// Every rule that the file breaks; empty for a good one.
inline std::vector<std::string> broken_rules(const Glb& glb) {
    std::vector<std::string> broken = glb.broken;
    if (!broken.empty())
        return broken;
    const glb_rules::Check check{glb, broken};
    check.rule(glb.json["asset"]["version"] == "2.0", "asset version");
    check.views();
    check.accessors();
    for (const auto& mesh : glb.json["meshes"])
        for (const auto& p : mesh["primitives"])
            check.primitive(p);
    check.materials();
    check.nodes();
    return broken;
}

}  // namespace backrow::stage
