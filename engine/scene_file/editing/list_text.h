#pragma once

// Lists in the text of a scene file, changed element by element: line breaks, indents and comments
// between the others stay as they are.
//
// Places are those of the tree that was read from the text; text behind the list's own may have
// been changed since.

#include <toml++/toml.h>

#include <cstddef>
#include <string>

namespace backrow::scene_file {

/// Takes an element out, with its comma; with its line and the comment on it where it stands alone
/// on that.
void take_from_list(std::string& text, const toml::array& list, std::size_t index);

/// Makes the list one of these other values: what both begin and end with stays where it is; of the
/// rest as many as there are in both are replaced in their places, and the others come or go.
///
/// now  of text, not empty; before likewise
void change_list(std::string& text, const toml::array& before, const toml::array& now);

/// Takes a key and its value out of its table: with its line where it has one to itself, else with
/// a comma.
void take_key(std::string& text, const toml::table& table, std::string_view key);

}  // namespace backrow::scene_file
