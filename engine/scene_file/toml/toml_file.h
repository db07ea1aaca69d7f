#pragma once

// A TOML text as a tree in which every key and value knows where it was written.

#include "scene_file/toml/findings.h"

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>

namespace backrow::scene_file {

/// Files beyond this are not something a person wrote.
inline constexpr std::size_t most_file_bytes = 4u << 20;

/// What the name of the file reads as for values given with --set: this, then the override.
inline constexpr std::string_view override_prefix = "--set ";

/// The text of the file that `findings` is about. kind is "scene" or "lens profile".
[[nodiscard]] std::optional<std::string> read_text(std::string_view kind, Findings& findings);

/// Reads and parses it.
[[nodiscard]] std::optional<toml::table> parse_toml_file(std::string_view kind, Findings& findings);

/// Parses a text, or tells the first thing that is not TOML. file is what places will name.
[[nodiscard]] tl::expected<toml::table, Problem> parse_toml(std::string_view text,
                                                            std::string_view file);

/// Where a key or value was written; line 0 for those given with --set.
[[nodiscard]] Place place_of(const toml::key& key);
[[nodiscard]] Place place_of(const toml::node& value);

}  // namespace backrow::scene_file
