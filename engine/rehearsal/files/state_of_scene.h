#pragma once

// Files of the state folder (base/state_folder.h) that are about one scene, named after its whole
// path.

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace backrow::rehearsal {

/// ending  ".recovery"
/// returns  nothing where there is no state folder
[[nodiscard]] std::optional<std::filesystem::path> state_of_scene(const std::string& scene_path,
                                                                  std::string_view ending);

}  // namespace backrow::rehearsal
