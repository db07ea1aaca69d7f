#include "stage/gltf_emission.h"

#include "base/files_read.h"

#include <nlohmann/json.hpp>

#include <array>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <set>
#include <string_view>
#include <system_error>

namespace backrow::stage {
namespace {

constexpr std::string_view extension = "KHR_materials_emissive_strength";

// The JSON of a .gltf, or the first chunk of a .glb: header of three words, then length and kind.
std::string json_of(const std::filesystem::path& file) {
    std::error_code failed;
    const std::uintmax_t file_bytes = std::filesystem::file_size(file, failed);
    std::ifstream stream = open_to_read(file);
    if (failed || !stream)
        return {};
    std::uintmax_t json_bytes = file_bytes;
    std::array<std::uint32_t, 5> header{};
    static_assert(sizeof header == 20);
    stream.read(reinterpret_cast<char*>(header.data()), sizeof header);
    if (stream && std::memcmp(header.data(), "glTF", 4) == 0) {
        json_bytes = header[3];
        if (json_bytes > file_bytes - sizeof header)
            return {};
    } else {
        stream.clear();
        stream.seekg(0);
    }
    std::string json(static_cast<std::size_t>(json_bytes), '\0');
    stream.read(json.data(), static_cast<std::streamsize>(json.size()));
    return stream ? json : std::string{};
}

double strength_of(const nlohmann::json& material) {
    const auto found = material.find("extensions");
    if (found == material.end() || !found->contains(extension))
        return 1;
    const auto& of_material = (*found)[std::string{extension}];
    const auto strength =
        of_material.is_object() ? of_material.find("emissiveStrength") : of_material.end();
    return strength != of_material.end() && strength->is_number() ? strength->get<double>() : 1;
}

}  // namespace

std::map<std::string, double> emission_strengths(const std::filesystem::path& file) {
    const std::string extension_of_file = file.extension().string();
    if (extension_of_file != ".gltf" && extension_of_file != ".glb")
        return {};
    const std::string text = json_of(file);
    if (text.find(extension) == std::string::npos)
        return {};
    const auto json = nlohmann::json::parse(text, nullptr, /*allow_exceptions=*/false);
    if (!json.is_object() || !json.contains("materials") || !json["materials"].is_array())
        return {};

    std::map<std::string, std::set<double>> all;
    for (const auto& material : json["materials"]) {
        if (!material.is_object())
            continue;
        const auto name = material.find("name");
        all[name != material.end() && name->is_string() ? name->get<std::string>() : ""].insert(
            strength_of(material));
    }
    std::map<std::string, double> strengths;
    for (const auto& [name, values] : all)
        if (values.size() == 1 && *values.begin() != 1)
            strengths[name] = *values.begin();
    return strengths;
}

}  // namespace backrow::stage
