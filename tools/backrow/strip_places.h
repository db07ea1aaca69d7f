#pragma once

// Where the frames of a strip are taken from, as the command line asks for it.

#include "exit_code.h"

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
    /// The option that lists the focal lengths.
    const char* focal_lengths_option = "--focal-lengths";
};

/// The places in the order in which they were named; the scene's own where none was. Or what is
/// wrong with the first that cannot be: among the people, out of focus, or no such lens.
[[nodiscard]] tl::expected<std::vector<backrow::plan::StripPlace>, std::string>
strip_places(const backrow::scene::Scene& scene, const StripPlacesAsked& asked);

/// What is wrong with an option's list of numbers: too many, or one of them twice; empty where
/// nothing is.
[[nodiscard]] std::string check_list(const char* option, const std::vector<double>& numbers,
                                     int most_values);

/// What is wrong with the two lists of places together.
[[nodiscard]] std::string check_places(const StripPlacesAsked& asked);

/// A frame without a face has nothing to judge. The scene's own frame is the scene's fault, others
/// are the command line's. Says what is wrong.
[[nodiscard]] ExitCode check_faces(const backrow::plan::Strip& strip,
                                   const backrow::scene::Camera& camera,
                                   const std::string& scene_path);

/// Whether the scene's own lens has these apertures, where it is one of the places'.
[[nodiscard]] std::string check_apertures(const backrow::scene::Scene& scene,
                                          const std::vector<backrow::plan::StripPlace>& places,
                                          const std::vector<double>& f_numbers, const char* option);
