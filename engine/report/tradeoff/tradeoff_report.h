#pragma once

// Distance against aperture as tables: text to read, JSON and CSV to work on.

#include "report/tradeoff/tradeoff_words.h"

#include <string>

namespace backrow::report {

/// The answers, then worst blur and background blur at whole stops; one line a distance. Ends with
/// a line break.
[[nodiscard]] std::string tradeoff_text(const TradeoffReport& report);

/// One JSON object with the documented keys in their documented order, third stops. null stands for
/// a distance or an f-number where there is none, and for arc minutes where pixels are judged. Ends
/// with a line break.
[[nodiscard]] std::string tradeoff_json(const TradeoffReport& report);

/// A heading and one record a distance and aperture, third stops.
[[nodiscard]] std::string tradeoff_csv(const TradeoffReport& report);

}  // namespace backrow::report
