#pragma once

// A lens profile as the text of its file.

#include "scene_file/reading/lens_profile_file.h"

#include <map>
#include <string>

namespace backrow::scene_file {

/// TOML that read_lens_profile() takes to the same values. What is 0 is left out.
///
/// comments  what stands beside keys, by key: "± 0.002"
[[nodiscard]] std::string lens_profile_toml(const NamedLensProfile& lens,
                                            const std::map<std::string, std::string>& comments);

}  // namespace backrow::scene_file
