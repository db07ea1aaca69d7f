#pragma once

// A small scene and the changes of it, for the tests of what hands do.

#include "../scene_file/scene_folder.h"

#include "scene/scene.h"

#include <string>
#include <vector>

namespace backrow::rehearsal {

/// Two in a row a little back, one alone; somebody with a name that needs quotation marks.
inline scene::Scene trio() {
    const scene_file::SceneFolder folder;
    return *folder.read(R"([camera]
f_number   = 2.0
distance_m = 4.0
[[row]]
back_m    = 0.5
spacing_m = 0.6
people    = ["Ana", "J. B."]
[[person]]
name     = "Ana"
back_m   = 0.1
[[person]]
name     = "Cleo"
across_m = 1.2
)");
}

using Values = std::vector<std::string>;

}  // namespace backrow::rehearsal
