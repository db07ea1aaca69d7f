#pragma once

// Values that change who is in the picture, what somebody is called, or who stands in which row:
// what they ask to be done wherever the scene names these people.
//
//   person.NAME.name="NEW"    renames everywhere: rows, [[person]], focus, aim, gaze, carrier,
//   company person.NAME.name="NAME"   gives somebody a [[person]] of their own; a newcomer is added
//   with it person.NAME.name=""       takes somebody out of the picture. A child that they carried
//   takes
//                             their place in the row, the focus on them becomes balanced, an aim at
//                             them "group", a gaze at them "camera"; whom they stayed beside is
//                             free
//   row.N.people=[…]          who stands in the row, from picture left to right; whoever was
//   carried
//                             is put down. N one more than there is makes a row. A row in which
//                             these values leave nobody is taken away when all of them are done, so
//                             that rows keep their numbers till then

#include "scene_file/editing/override.h"

#include "base/problem.h"

#include <toml++/toml.h>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::scene_file {

/// Puts a value in the place of another, or takes one out.
struct Step {
    toml::node* in = nullptr;  ///< A table, or a list.
    std::string key{};         ///< Which of the table …
    std::size_t index = 0;     ///< … or of the list.
    std::string value_text{};  ///< TOML, to be put there; empty: it is taken out.
    std::string new_key{};     ///< That the value gets in the table; empty: as it is.
};

/// Whether an override is one of those above. What is not can be written by itself.
[[nodiscard]] bool changes_people(const Override& override);

/// Whether it asks for a [[person]] that is not there yet.
[[nodiscard]] bool adds_person(const toml::table& scene, const Override& override);

/// Whether it asks for a row that is not there yet.
[[nodiscard]] bool adds_row(const toml::table& scene, const Override& override);

/// What has to be done for an override that changes people and adds none; in a list later ones come
/// after earlier ones.
///
/// errors  nobody is called so; the new name is none, taken, or a word with a meaning where it
/// would
///         stand; there is no such row
[[nodiscard]] tl::expected<std::vector<Step>, Problem> steps_of(toml::table& scene,
                                                                const Override& override);

/// The rows, counted from 0, in which nobody stands.
[[nodiscard]] std::vector<std::size_t> empty_rows(const toml::table& scene);

/// Takes away every row that is empty and not among those that were before.
[[nodiscard]] std::vector<Step> steps_without_emptied_rows(toml::table& scene,
                                                           const std::vector<std::size_t>& before);

}  // namespace backrow::scene_file
