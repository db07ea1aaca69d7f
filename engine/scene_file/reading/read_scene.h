#pragma once

// From a TOML scene file to a checked Scene.

#include "scene/scene.h"

#include "base/problem.h"

#include <string>
#include <vector>

namespace backrow::scene_file {

inline constexpr double most_megapixels = 200.0;

/// Reads, applies the overrides, checks everything.
///
/// path       the scene file
/// overrides  each "key=value" as given to --set: a dotted key of the scene ("camera.f_number",
///            "person.Bram.lean_m", "row.0.back_m", "setting.backdrop.0.kind") and a TOML value; a
///            bare word is taken as a string
/// returns    the scene, or every problem found, in order of their places; a problem in an override
///            has the file "--set camera.f_number=x" and line 0
[[nodiscard]] Checked<scene::Scene> read_scene(const std::string& path,
                                               const std::vector<std::string>& overrides = {});

/// The same from the text that the file has, or would have: path is what problems name and where
/// the files that the scene names are looked for.
[[nodiscard]] Checked<scene::Scene> read_scene_text(const std::string& text,
                                                    const std::string& path,
                                                    const std::vector<std::string>& overrides = {});

/// The text of a scene file, unread; of at most most_file_bytes.
[[nodiscard]] Checked<std::string> scene_file_text(const std::string& path);

}  // namespace backrow::scene_file
