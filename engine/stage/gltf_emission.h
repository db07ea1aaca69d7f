#pragma once

// KHR_materials_emissive_strength of a glTF file, which Assimp 5.2 does not read.

#include <filesystem>
#include <map>
#include <string>

namespace backrow::stage {

/// Strengths other than 1 by the name of their material, all that Assimp hands on to tell materials
/// apart; materials without a name stand under "". Where one name has several strengths it has none
/// here. Empty for a file that is no glTF or cannot be understood: Assimp says so better.
/// Source: [GLTF2], extension KHR_materials_emissive_strength.
[[nodiscard]] std::map<std::string, double> emission_strengths(const std::filesystem::path& file);

}  // namespace backrow::stage
