#pragma once

// Who is in the picture, by the tree of a scene file that has not been checked yet.

#include "scene_file/editing/override.h"

#include "base/problem.h"

#include <toml++/toml.h>

#include <string>
#include <string_view>
#include <vector>

namespace backrow::scene_file {

/// Null where this is no text.
[[nodiscard]] const std::string* text_of(const toml::node* node);
[[nodiscard]] bool says(const toml::node* node, std::string_view text);

/// In order of the file; one that is written twice stands there twice.
[[nodiscard]] std::vector<std::string_view> names_in_tables(const toml::table& scene);
[[nodiscard]] std::vector<std::string_view> names_in_rows(const toml::table& scene);

[[nodiscard]] bool holds(const std::vector<std::string_view>& names, std::string_view name);

/// Whether a [[row]] has somebody of this name.
[[nodiscard]] bool stands_in_a_row(const toml::table& scene, std::string_view name);

/// Whom the second part of "person.WHO.key" means: somebody in the picture by name, or else by
/// number among the [[person]] tables.
///
/// errors  nobody is called so
[[nodiscard]] tl::expected<std::string, Problem> name_meant(const toml::table& scene,
                                                            const Override& override);

}  // namespace backrow::scene_file
