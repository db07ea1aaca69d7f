#include "base/state_folder.h"

#include "base/whole_files.h"

#include <array>
#include <cstdlib>
#include <fstream>
#include <system_error>

namespace backrow {
namespace {

namespace fs = std::filesystem;

/// An absolute path out of the environment, or nothing.
std::optional<fs::path> folder_named_by(const char* variable) {
    const char* value = std::getenv(variable);
    if (value == nullptr || *value != '/')
        return std::nullopt;
    return fs::path{value};
}

}  // namespace

std::optional<fs::path> state_folder() {
    if (const auto state = folder_named_by("XDG_STATE_HOME"))
        return *state / "backrow";
    if (const auto home = folder_named_by("HOME"))
        return *home / ".local" / "state" / "backrow";
    return std::nullopt;
}

std::optional<fs::path> config_folder() {
    if (const auto config = folder_named_by("XDG_CONFIG_HOME"))
        return *config / "backrow";
    if (const auto home = folder_named_by("HOME"))
        return *home / ".config" / "backrow";
    return std::nullopt;
}

std::optional<std::string> read_state(const fs::path& path, std::size_t most_bytes) {
    std::error_code trouble;
    if (!fs::is_regular_file(path, trouble))
        return std::nullopt;
    std::ifstream file{path, std::ios::binary};
    std::string bytes;
    std::array<char, 1u << 16> piece;
    while (file && bytes.size() <= most_bytes) {
        file.read(piece.data(), piece.size());
        bytes.append(piece.data(), static_cast<std::size_t>(file.gcount()));
    }
    return file.eof() || bytes.size() > most_bytes ? std::optional{std::move(bytes)} : std::nullopt;
}

Made<void> write_state(const fs::path& file, std::string_view text) {
    const fs::path folder = file.parent_path();
    std::error_code trouble;
    if (fs::create_directories(folder, trouble))
        fs::permissions(folder, fs::perms::owner_all, trouble);
    PendingFiles files;
    if (auto aside = files.add(file.string(), text); !aside)
        return aside;
    return files.keep();
}

}  // namespace backrow
