#pragma once

// Many values written into the text of a scene file in one go: a group that is dragged changes two
// values for everybody, many times a second.

#include <optional>
#include <string>
#include <vector>

namespace backrow::scene_file {

/// As with_values() (edit_scene_text.h), reading the text no more often for many values than for
/// one.
///
/// returns  nothing where the values are not only new ones for keys that are there, for keys that
///          their tables lack, and for people who so far are only in a row; then they have to be
///          written one after the other
[[nodiscard]] std::optional<std::string>
with_values_at_once(const std::string& text, const std::string& file,
                    const std::vector<std::string>& overrides);

}  // namespace backrow::scene_file
