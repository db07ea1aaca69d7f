#pragma once

// One spelling for one place.

#include <string>

namespace backrow {

/// The path from the root on, without dots, links followed as far as there is something: two
/// spellings of one place are equal, whether or not a file is there yet. The path itself where the
/// system cannot tell.
[[nodiscard]] std::string whole_path(const std::string& path);

}  // namespace backrow
