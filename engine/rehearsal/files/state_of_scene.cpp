#include "rehearsal/files/state_of_scene.h"

#include "figures/name_hash.h"

#include "base/state_folder.h"
#include "base/whole_path.h"

#include <fmt/format.h>

namespace backrow::rehearsal {

std::optional<std::filesystem::path> state_of_scene(const std::string& scene_path,
                                                    std::string_view ending) {
    const auto folder = state_folder();
    if (!folder)
        return std::nullopt;
    return *folder /
           fmt::format("{:016x}{}", figures::hash_of_name(whole_path(scene_path)), ending);
}

}  // namespace backrow::rehearsal
