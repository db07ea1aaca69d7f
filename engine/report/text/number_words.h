#pragma once

// Numbers in words' company: as many digits as count, no more and no fewer.

#include <string>

namespace backrow::report {

/// Two digits that count, a nought at the end among them: "0.052", "0.35", "1.0", "14"; from 100 on
/// the whole number. Smaller than 0.0005 is "0".
///
/// number  ≥ 0, finite
[[nodiscard]] std::string two_digits(double number);

}  // namespace backrow::report
