#pragma once

// Which files this run has read, so that it writes over none of them. Whatever reads a file of the
// user's opens it here.

#include <filesystem>
#include <fstream>
#include <string>

namespace backrow {

/// Opens a file, byte for byte, and notes it. May be called from any thread, as all of these.
[[nodiscard]] std::ifstream open_to_read(const std::filesystem::path& file);

/// For a library that opens it itself.
void note_read(const std::filesystem::path& file);

/// Whether writing here would write over a file that was read: under whatever name, through
/// whatever link. False where nothing stands there.
[[nodiscard]] bool was_read(const std::string& path);

}  // namespace backrow
