#pragma once

// Advice as things to try and to take back: each answer in one line with what it costs, and the
// change that brings the scene there from wherever among the answers it is now.

#include "rehearsal/hands/handling.h"

#include "plan/advice/advice.h"
#include "scene/scene.h"

#include "base/length_words.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::rehearsal {

struct ThingToTry {
    std::string what;   ///< "f/2.8, focus on Bram, Priya 9 cm forward".
    std::string costs;  ///< "1 stop lost, background 6.1 → 4.2 % of the picture's height".
    Change change;      ///< From the scene as it is now; no values where that is this answer.
    bool is_now = false;
    double stops_lost = 0;  ///< Against the scene that was asked about.
    double background_before_percent = 0;
    double background_after_percent = 0;
    optics::Grade worst_grade = optics::Grade::lost;
    std::vector<plan::Caution> cautions{};
};

struct Answers {
    std::vector<ThingToTry> things;  ///< In the order of the advice.
    bool is_possible = false;        ///< Else the only thing is what comes nearest.
    Change take_back;  ///< Back to the scene that was asked about; no values where that is now.
};

/// asked    the scene that the advice is about
/// now      the scene as it is
/// returns  nothing where the scene is neither that nor one of the answers, but for shutter and
/// ISO,
///          so that what was worked out does not hold for it and has to be asked anew
[[nodiscard]] std::optional<Answers> answers(const scene::Scene& asked, const scene::Scene& now,
                                             const plan::Advice& advice, Units units);

}  // namespace backrow::rehearsal
