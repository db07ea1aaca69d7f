#pragma once

// The odds as text to read, JSON and CSV to work on.

#include "plan/odds/odds.h"
#include "scene/scene.h"

#include "base/length_words.h"

#include <cstdint>
#include <optional>
#include <string>

namespace backrow::report {

struct OddsReport {
    std::string title;
    scene::Camera camera;
    scene::Odds lapses;   ///< What could go wrong, as it was reckoned with.
    bool motion = false;  ///< Somebody moves.
    optics::Grade grade = optics::Grade::fine;
    std::uint64_t seed = 0;
    plan::Odds odds;
    Units units = Units::metric;             ///< Of the text.
    std::optional<std::string> lens_note{};  ///< perfect_lens_sentence()
};

/// The odds of this scene, by trials.
[[nodiscard]] OddsReport odds_report(const scene::Scene& scene, optics::Grade grade,
                                     const plan::TrialSettings& trials, Units units);

/// What was reckoned with, the chances with twice their standard errors, how many frames to shoot,
/// and one line a person. Ends with a line break.
[[nodiscard]] std::string odds_text(const OddsReport& report);

/// One JSON object with the documented keys in their documented order. null stands for a number of
/// frames where no frame is good, and for `sharp_closed_form` where there is none. Ends with a line
/// break.
[[nodiscard]] std::string odds_json(const OddsReport& report);

/// A heading and one record a person.
[[nodiscard]] std::string odds_csv(const OddsReport& report);

}  // namespace backrow::report
