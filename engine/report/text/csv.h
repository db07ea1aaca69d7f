#pragma once

// Comma-separated values. Source: [RFC4180].

#include <optional>
#include <string>
#include <vector>

namespace backrow::report {

/// One record with its line end (CR LF). Fields with a comma, a quote or a line break are quoted,
/// quotes inside doubled.
[[nodiscard]] std::string csv_record(const std::vector<std::string>& fields);

/// As many digits as give the number back; empty for none, and for one that is not finite.
[[nodiscard]] std::string number_field(std::optional<double> number);

}  // namespace backrow::report
