#pragma once

// The only folder that a model may read from: its own. What Assimp opens goes through here.

#include <assimp/DefaultIOSystem.h>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace backrow::stage {

/// Opens regular files for reading, below the model's folder and up to a size, and remembers what
/// it refused. Links are followed before the folder is compared, so none leads out; the model
/// itself may be a link.
class ModelFolder final : public Assimp::DefaultIOSystem {
public:
    ModelFolder(std::filesystem::path model, std::uintmax_t most_bytes);

    bool Exists(const char* file) const override;
    Assimp::IOStream* Open(const char* file, const char* mode) override;

    /// Whether a path, as a model names it, stays inside.
    [[nodiscard]] bool holds(const std::filesystem::path& file) const;

    /// Where a texture lies that a model names: as named from its folder, or else by its bare name
    /// there, in capitals or not, since programs leave paths of their own machine in files.
    [[nodiscard]] std::optional<std::filesystem::path> find(const std::string& named) const;

    /// The first file outside that was asked for and is there; empty if none was.
    [[nodiscard]] const std::string& refused() const noexcept { return refused_; }

private:
    [[nodiscard]] std::optional<std::filesystem::path>
    beside_in_any_case(const std::string& name) const;

    std::filesystem::path model_;
    std::filesystem::path folder_;
    std::uintmax_t most_bytes_;
    std::string refused_;
};

}  // namespace backrow::stage
