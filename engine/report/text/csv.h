#pragma once

// Comma-separated values. Source: [RFC4180].

#include <string>
#include <vector>

namespace backrow::report {

/// One record with its line end (CR LF). Fields with a comma, a quote or a line break are quoted,
/// quotes inside doubled.
[[nodiscard]] std::string csv_record(const std::vector<std::string>& fields);

}  // namespace backrow::report
