#pragma once

// Where the program's own shaders and scenes are.

#include "base/problem.h"

#include <string>

namespace backrow {

/// The file `name` ("shaders/lens_pass.vert"): beside the program, then under its install prefix,
/// then among what its build made, then
/// in the source tree it was built from. Failing that, every place looked in.
[[nodiscard]] Made<std::string> find_asset(const std::string& name);

/// The whole of a text file. Fails where it cannot be read.
[[nodiscard]] Made<std::string> read_text(const std::string& path);

}  // namespace backrow
