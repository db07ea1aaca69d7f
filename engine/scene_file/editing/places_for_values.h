#pragma once

// Where in the text of a scene file a value belongs that is to be written into it.

#include "scene_file/editing/override.h"
#include "scene_file/toml/toml_places.h"

#include <toml++/toml.h>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::scene_file {

/// The table that an override means, as far as the text has it.
struct Meant {
    toml::node* node = nullptr;     ///< A table, or a list for a number as last part.
    std::vector<std::string> path;  ///< Of the table.
    bool is_person = false;
};

/// tree     of the text
/// returns  nothing where a table on the way is not there
[[nodiscard]] std::optional<Meant> meant(toml::table& tree, const Override& override);

/// A part of a key as TOML has it.
[[nodiscard]] std::string in_key_form(const std::string& part);

/// From the key to the end of its value; nothing where the table has no such key.
[[nodiscard]] std::optional<Stretch> key_and_value(std::string_view text, const toml::table& table,
                                                   std::string_view key);

/// The last of the table's own keys, with its value; nothing where it has none but tables.
[[nodiscard]] std::optional<Stretch> last_of(std::string_view text, const toml::table& table);

/// Whether nothing stands before this on its line.
[[nodiscard]] bool begins_its_line(std::string_view text, std::size_t offset);

/// How far from its line's begin the equals sign of a new key stands, to be in line with the one
/// that begins at an offset.
[[nodiscard]] std::size_t width_in_line(std::string_view text, std::size_t key_begin,
                                        std::string_view new_key);

/// Key and value in line with the key that begins at an offset.
[[nodiscard]] std::string line_with(std::string_view text, std::size_t key_begin,
                                    std::string_view new_key, std::string_view value);

}  // namespace backrow::scene_file
