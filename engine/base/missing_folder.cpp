#include "base/missing_folder.h"

#include <system_error>

namespace backrow {

std::filesystem::path missing_folder(const std::filesystem::path& file) {
    std::filesystem::path so_far;
    for (const auto& part : file.parent_path()) {
        so_far /= part;
        std::error_code none;
        if (!std::filesystem::exists(so_far, none) && !none)
            return so_far;
    }
    return {};
}

}  // namespace backrow
