#pragma once

// A strip as tables: text to read, JSON and CSV to work on.

#include "report/strip/strip_contents.h"

#include <string>

namespace backrow::report {

/// What stays the same, then one line a frame. Ends with a line break.
[[nodiscard]] std::string strip_text(const StripReport& report);

/// One JSON object with the documented keys in their documented order. null stands for arc minutes
/// where pixels are judged, and for a blur that could not be measured. Ends with a line break.
[[nodiscard]] std::string strip_json(const StripReport& report);

/// A heading and one record a frame.
[[nodiscard]] std::string strip_csv(const StripReport& report);

}  // namespace backrow::report
