#pragma once

// Where the frames of a strip are taken from, as the command line asks for it.

#include "plan/comparing/strip.h"
#include "scene/scene.h"

#include "base/problem.h"

#include <string>
#include <vector>

/// One of the lists or neither.
struct StripPlacesAsked {
    std::vector<double> distances_m;
    std::vector<double> focal_lengths_mm;
    bool keep_framing = false;  ///< Whichever was not listed follows.
};

/// The places in the order in which they were named; the scene's own where none was. Or what is
/// wrong with the first that cannot be: among the people, out of focus, or no such lens.
[[nodiscard]] tl::expected<std::vector<backrow::plan::StripPlace>, std::string>
strip_places(const backrow::scene::Scene& scene, const StripPlacesAsked& asked);
