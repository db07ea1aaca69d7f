#pragma once

// What the end of a file's name says of the file.

#include <string_view>

namespace backrow {

/// Whether the path ends so, in capitals or not.
///
/// ending  lower case, with the dot
[[nodiscard]] bool ends_in(std::string_view path, std::string_view ending);

}  // namespace backrow
