#pragma once

// What people_steps.h asks for, done to the text of a scene file. What a file cannot take this way
// shows when the text is read back.

#include "scene_file/editing/people_steps.h"

#include <toml++/toml.h>

#include <string>
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

/// A [[row]] after the last one, with its key in line with theirs, or at the end; people is TOML, a
/// list.
void add_row(std::string& text, const toml::table& tree, const std::string& people);

}  // namespace backrow::scene_file
