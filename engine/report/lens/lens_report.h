#pragma once

// What a lens does, as text to read, JSON and CSV to work on. The drawing is in lens_sheet.h.

#include "optics/blur/viewing.h"
#include "optics/contrast/lens_figures.h"
#include "optics/fitting/profile_fit.h"
#include "optics/lens/lens_profile.h"

#include "base/length_words.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::report {

struct LensReport {
    std::string title;
    std::string origin{};
    std::string date{};
    double focal_length_mm = 50;
    optics::LensProfile profile{};
    /// Where its errors were fitted from what its file says was measured.
    std::optional<optics::ProfileFit> fit{};
    optics::LensFigures figures{};
    double sensor_long_side_mm = 36;
    optics::PrintViewing viewing = optics::album_viewing;  ///< What "good" is meant for.
    Units units = Units::metric;
};

/// "Typical fast prime, 50 mm f/1.4".
[[nodiscard]] std::string lens_name(const LensReport& report);

/// From which openings the middle, half way and the corners are good; the light that is lost; how
/// the field is shaped; the camera's offset; a sentence each.
[[nodiscard]] std::vector<std::string> lens_sentences(const LensReport& report);

/// A table by opening, and the sentences. Ends with a line break.
[[nodiscard]] std::string lens_text(const LensReport& report);

/// One JSON object with the documented keys. Ends with a line break.
[[nodiscard]] std::string lens_json(const LensReport& report);

/// A heading and one record for each opening and height.
[[nodiscard]] std::string lens_csv(const LensReport& report);

}  // namespace backrow::report
