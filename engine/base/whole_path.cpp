#include "base/whole_path.h"

#include <filesystem>
#include <system_error>

namespace backrow {

std::string whole_path(const std::string& path) {
    namespace fs = std::filesystem;
    std::error_code trouble;
    const fs::path absolute = fs::absolute(path, trouble);
    const fs::path whole = trouble ? fs::path{} : fs::weakly_canonical(absolute, trouble);
    return trouble ? path : whole.string();
}

}  // namespace backrow
