#pragma once

// Every value that a scene file says, by its key as --set has it: to find out what two texts say
// differently.

#include "base/problem.h"

#include <map>
#include <string>

namespace backrow::scene_file {

/// "camera.f_number" → "2.8", "row.1.people" → "["Ana", "Ben"]", "person.Ana.back_m" → "0.1".
/// Lists are one value; people go by their names, other lists of tables by their numbers.
///
/// text  of a scene file
/// file  what problems name as the place
[[nodiscard]] Checked<std::map<std::string, std::string>> told_values(const std::string& text,
                                                                      const std::string& file);

}  // namespace backrow::scene_file
