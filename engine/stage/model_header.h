#pragma once

// Headers of model files that Assimp 5.2 takes at their word: a PLY file whose header does not end
// sends it round for ever or off its buffer, an OFF file of a few bytes can ask for all memory.

#include <cstdint>
#include <filesystem>

namespace backrow::stage {

/// Throws Refusal for a PLY or OFF file, told by its name or its first letters, whose header is
/// damaged or promises more than the file can hold. Files of other kinds pass.
///
/// file_bytes  size of the whole file
/// source      [PLY] for the words of a header
void check_header(const std::filesystem::path& model, std::uintmax_t file_bytes);

}  // namespace backrow::stage
