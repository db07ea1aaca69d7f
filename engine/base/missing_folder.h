#pragma once

// Which folder is missing where a file cannot be found or made: more help than "no such file or
// directory".

#include <filesystem>

namespace backrow {

/// The first folder on the way to this file that is not there, as the path spells it; empty where
/// all of them are.
[[nodiscard]] std::filesystem::path missing_folder(const std::filesystem::path& file);

}  // namespace backrow
