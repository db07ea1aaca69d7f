#pragma once

// People who come into the picture, leave it, and are called otherwise.

#include "rehearsal/hands/handling.h"

#include "arranging/rearrange.h"
#include "scene/scene.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace backrow::rehearsal {

/// A change after which somebody new is there.
struct Newcomer {
    Change change;
    std::string name;
};

/// Somebody new at picture right of somebody: next in the row, or half a metre beside whoever
/// stands alone; without anybody named, at the end of the front row. With a first name that nobody
/// has.
///
/// beside  index in Scene::people
[[nodiscard]] Newcomer add_person(const scene::Scene& scene, std::optional<std::size_t> beside);

/// The same with the body and looks of the one beside whom they stand.
[[nodiscard]] Newcomer add_another_like(const scene::Scene& scene, std::size_t person);

/// Out of the picture; children that they carried stay.
///
/// people   indices in Scene::people, each once
/// returns  no values where nobody would be left
[[nodiscard]] Change remove_people(const scene::Scene& scene, std::span<const std::size_t> people);

/// Another name, wherever the scene says it. What names cannot be is told when it is tried.
[[nodiscard]] Change rename(const scene::Scene& scene, std::size_t person, std::string_view name);

/// At this age; where no stature is said in the file, it goes with the age.
[[nodiscard]] Change grow_to_age(const scene::Scene& scene, std::size_t person, double age_years);

/// A child into somebody's arms, or down again, to stand beside them. No values where it is too
/// large to be carried.
///
/// carrier  index in Scene::people; none: put down
[[nodiscard]] Change carry(const scene::Scene& scene, std::size_t child,
                           std::optional<std::size_t> carrier);

/// A key of [[person]] for each of them.
///
/// value  TOML: "true"
[[nodiscard]] Change say_of(const scene::Scene& scene, std::span<const std::size_t> people,
                            std::string_view key, std::string_view value);

/// Whom somebody stays beside when the group is arranged again; nobody where no name is given.
[[nodiscard]] Change stay_beside(const scene::Scene& scene, std::size_t person,
                                 std::string_view whom);

/// Who stands in which row, and in which order, as was found anew.
[[nodiscard]] Change arrange_again(const arranging::Rearrangement& again);

/// Looking at the camera, ahead, or at somebody.
[[nodiscard]] Change look_at(const scene::Scene& scene, std::span<const std::size_t> people,
                             std::string_view whom);

}  // namespace backrow::rehearsal
