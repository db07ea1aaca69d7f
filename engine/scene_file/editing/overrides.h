#pragma once

// Values given on the command line with --set, written into the tree of a scene file before
// anything is checked, so that they are checked like the file.

#include "scene_file/editing/people_steps.h"
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
/// remain a mistake. What values do to people as a whole is told in people_steps.h, how things come
/// and go in thing_steps.h.
void apply_overrides(toml::table& scene, const std::vector<std::string>& overrides,
                     Findings& findings);

/// One of them, without taking away the rows that it empties (people_steps.h).
void apply_override(toml::table& scene, const std::string& text, Findings& findings);

/// The steps of people_steps.h done to the tree that they were worked out from; file is what the
/// places of new values name.
void do_in_tree(const std::vector<Step>& steps, const std::string& file);

}  // namespace backrow::scene_file
