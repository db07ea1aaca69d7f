#pragma once

// What is kept between runs and is nobody's own work: unsaved changes, files used last, choices
// made last. It lies in backrow/ under $XDG_STATE_HOME or else ~/.local/state, for its owner alone,
// and is read as hostile.

#include "base/problem.h"

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace backrow {

/// Nothing where neither variable names a folder.
[[nodiscard]] std::optional<std::filesystem::path> state_folder();

/// backrow/ under $XDG_CONFIG_HOME or else ~/.config: what its owner has chosen for good, and may
/// write by hand.
[[nodiscard]] std::optional<std::filesystem::path> config_folder();

/// What a file has, no more than one byte beyond the limit; nothing where it is no ordinary file or
/// may not be read.
[[nodiscard]] std::optional<std::string> read_state(const std::filesystem::path& file,
                                                    std::size_t most_bytes);

/// Writes it whole, and makes its folder where there is none.
[[nodiscard]] Made<void> write_state(const std::filesystem::path& file, std::string_view text);

}  // namespace backrow
