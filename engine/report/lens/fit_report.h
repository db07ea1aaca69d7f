#pragma once

// A lens profile that was fitted, as text to read and JSON to work on.

#include "optics/fitting/profile_fit.h"

#include "base/length_words.h"

#include <cstddef>
#include <string>
#include <vector>

namespace backrow::report {

struct FitReport {
    std::string title;
    optics::TestShots shots{};
    optics::LightFit light{};
    optics::ProfileFit fit{};
    std::size_t frames = 0;  ///< 0: fitted from what a file says was measured.
    std::size_t edges = 0;
    std::size_t measurements = 0;  ///< Of MTF50 in such a file.
    Units units = Units::metric;
};

/// Each term with its uncertainty, how well the lens of these terms explains the frames, and what
/// they do not tell. Ends with a line break.
[[nodiscard]] std::string fit_text(const FitReport& report);

/// One JSON object with the documented keys. Ends with a line break.
[[nodiscard]] std::string fit_json(const FitReport& report);

/// A heading and one record for each term; one that is not told has no numbers.
[[nodiscard]] std::string fit_csv(const FitReport& report);

/// What these frames cannot tell, a sentence each.
[[nodiscard]] std::vector<std::string> untold_sentences(const FitReport& report);

/// "from 5 frames, 240 edges", "from 12 measurements".
[[nodiscard]] std::string source_words(const FitReport& report);

}  // namespace backrow::report
