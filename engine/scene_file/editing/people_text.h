#pragma once

// What people_steps.h asks for, done to the text of a scene file. What a file cannot take this way
// shows when the text is read back.

#include "scene_file/editing/people_steps.h"

#include <toml++/toml.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace backrow::scene_file {

/// Steps worked out from the tree of this very text. A table goes from its head to its last key,
/// with the blank lines before it; comments of their own that stand before it stay.
void do_in_text(std::string& text, std::vector<Step> steps);

/// Keys, and their values as TOML.
using KeysAndValues = std::vector<std::pair<std::string, std::string>>;

/// A [[person]] at the end, or in the list where people stand in one.
void add_person(std::string& text, const toml::table& tree, const KeysAndValues& said);

/// A [[table]] after the last one of its list, with its key in line with theirs, or at the end.
///
/// list   what the text was read to; null or empty where there is none yet
/// name   of the list, as heads have it: "row", "setting.backdrop"
/// value  TOML
void add_to_list(std::string& text, const toml::array* list, std::string_view name,
                 std::string_view key, const std::string& value);

}  // namespace backrow::scene_file
