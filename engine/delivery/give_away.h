#pragma once

// Everything that was chosen, made and written: all of it or nothing.

#include "delivery/choices.h"
#include "delivery/not_made.h"
#include "delivery/workshop.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace backrow::delivery {

/// Of the files that are wanted, in the order of the outputs.
[[nodiscard]] std::vector<std::string> paths_of(const Choices& choices);

/// Those of them at which something stands already.
[[nodiscard]] std::vector<std::string> standing_already(const Choices& choices);

/// What keeps them from being written, asked before the long work: nothing is wanted, a name that
/// is none, two files of one name, a folder that refuses, a file that is part of the scene.
[[nodiscard]] std::optional<NotMade> hindrance(const Choices& choices);

/// Told the share of the whole that is done, 0 … 1, and what is being made, often; returns false to
/// stop.
using WholeProgress = std::function<bool(double share, const char* words)>;

/// Makes everything, then writes it: where anything fails nothing is written, and what stood there
/// is untouched.
///
/// returns  the paths written
[[nodiscard]] tl::expected<std::vector<std::string>, NotMade>
give_away(const scene::Scene& scene, const Choices& choices, const Asked& asked,
          const WholeProgress& progress);

}  // namespace backrow::delivery
