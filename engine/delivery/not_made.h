#pragma once

// Why something that was to be given away was not made.

#include "render/driver/progress.h"

#include "base/problem.h"

#include <string>
#include <variant>
#include <vector>

namespace backrow::delivery {

/// Something wrong with the scene or with a name, with the machine, or nobody waited for it.
using NotMade = std::variant<Problem, MachineFailure, render::Stopped>;

[[nodiscard]] NotMade not_made(const render::Unfinished& why);
/// The first of them.
[[nodiscard]] NotMade not_made(const std::vector<Problem>& problems);

/// In one line with its mend; empty where nobody waited for it.
[[nodiscard]] std::string to_line(const NotMade& why);

}  // namespace backrow::delivery
