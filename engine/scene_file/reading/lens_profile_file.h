#pragma once

// A lens profile as a small TOML file: how a real lens departs from the perfect one.
//
//     title               = "Gentle fifty"   # optional
//     widest_f_number     = 1.2
//     spherical_dpt       = 0.12             # at the edge of the widest opening
//     field_curvature_dpt = -0.08            # in the corner of the picture

#include "optics/lens_profile.h"

#include "base/problem.h"

#include <string>

namespace backrow::scene_file {

struct NamedLensProfile {
    std::string title;
    optics::LensProfile profile;
};

/// The profile, or every problem found; line 0 where the file could not be opened.
[[nodiscard]] Checked<NamedLensProfile> read_lens_profile(const std::string& path);

}  // namespace backrow::scene_file
