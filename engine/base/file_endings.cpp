#include "base/file_endings.h"

#include <algorithm>
#include <cctype>

namespace backrow {

bool ends_in(std::string_view path, std::string_view ending) {
    return path.size() >= ending.size() &&
           std::ranges::equal(path.substr(path.size() - ending.size()), ending, {},
                              [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
}

}  // namespace backrow
