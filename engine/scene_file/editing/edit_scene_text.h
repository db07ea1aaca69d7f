#pragma once

// A scene file changed as its owner would change it: only the values meant, every comment, every
// other line and their order as they were.

#include "base/problem.h"

#include <string>
#include <vector>

namespace backrow::scene_file {

/// text       of a scene file, TOML
/// file       what problems name as the place
/// overrides  as for --set; a value that is there is replaced where it stands, a rival (another way
///            to say what is in focus, …) gives its line to the new key, a new key comes after the
///            last of its table and lines up with it, a table that is missing comes at the end
/// returns    a text that reads as the old one does with these overrides; or all problems, among
///            them a file written in a way that this cannot keep
[[nodiscard]] Checked<std::string> with_values(std::string text, const std::string& file,
                                               const std::vector<std::string>& overrides);

}  // namespace backrow::scene_file
