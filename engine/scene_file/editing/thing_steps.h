#pragma once

// Values that put a backdrop or a model into the scene, or take it away; and those that take back
// what was said of somebody's looks.
//
//   setting.backdrop.N.kind="hedge"  N one more than there is: another backdrop
//   setting.backdrop.N.kind=""       takes it away
//   model.N.file="bench.glb"         likewise a model,
//   model.N.file=""                  and away with it
//   setting.panorama=""              the built sky again
//   person.NAME.skin=""              as the name has it again; likewise all that is worn, hair,
//                                    arms and expression
//
// Those behind a thing in the file then have the number before.

#include "scene_file/editing/override.h"
#include "scene_file/editing/people_steps.h"

#include "base/problem.h"

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <vector>

namespace backrow::scene_file {

/// A list of [[tables]] that an override is about.
struct ListMeant {
    std::string name;                     ///< "setting.backdrop", as its tables' heads have it.
    const toml::array* tables = nullptr;  ///< Null where the scene has none yet.
};

/// Whether it asks for a thing that is not there yet, and of which list.
[[nodiscard]] std::optional<ListMeant> adds_thing(const toml::table& scene,
                                                  const Override& override);

/// Whether it takes a thing away, or means to.
[[nodiscard]] bool takes_thing(const Override& override);

/// What has to be done for one that does.
///
/// errors  there is no such thing
[[nodiscard]] tl::expected<std::vector<Step>, Problem> steps_taking_thing(toml::table& scene,
                                                                          const Override& override);

}  // namespace backrow::scene_file
