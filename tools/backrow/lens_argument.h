#pragma once

// --lens MM/F[,PROFILE]: a lens carried, how far it opens, and the file that tells its faults.

#include "plan/comparing/carried_lens.h"

#include "base/problem.h"

#include <CLI/CLI.hpp>

#include <optional>
#include <string>
#include <vector>

struct LensArguments {
    std::vector<std::string> words;

    /// Declares --lens on a verb.
    ///
    /// widest_optional  whether a focal length alone will do
    void add_to(CLI::App& verb, const char* description, bool widest_optional);

    /// The lenses, one a word, in their order; widest_f_number is 0 where only the focal length was
    /// given. Profiles are read, and named as the scene would name them.
    ///
    /// errors  every problem of a profile, or that the lens would open further than its profile
    [[nodiscard]] backrow::Checked<std::vector<backrow::plan::CarriedLens>>
    read(const std::string& scene_file) const;
};
