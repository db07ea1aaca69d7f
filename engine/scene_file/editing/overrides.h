#pragma once

// Values given on the command line with --set, written into the tree of a scene file before
// anything is checked, so that they are checked like the file.

#include "scene_file/toml/findings.h"

#include <toml++/toml.h>

#include <string>
#include <string_view>
#include <vector>

namespace backrow::scene_file {

/// Each "key=value": a dotted key ("camera.f_number", "person.Bram.lean_m", "row.0.back_m") and a
/// TOML value, or a bare word taken as text. A part with dots of its own stands in double quotes.
///
/// Where only one of several keys may be given (what to focus on, a use or a print, a place of
/// one's own or a carrier), an override replaces what the file said; two overrides that disagree
/// remain a mistake.
void apply_overrides(toml::table& scene, const std::vector<std::string>& overrides,
                     Findings& findings);

/// Whether a [[row]] has somebody of this name.
[[nodiscard]] bool stands_in_a_row(const toml::table& scene, std::string_view name);

}  // namespace backrow::scene_file
