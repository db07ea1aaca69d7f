#pragma once

// The chance that a frame is good: every face within the wanted grade, every eye open.
//
// Frames are independent of each other, as they are when some seconds pass between them; in a burst
// people sway and blink from one frame into the next. Who hides whom, and whether a face is whole
// in the frame, is not asked here: the face table tells.

#include "plan/odds/frame_model.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace backrow::plan {

/// A share of trials with its standard error.
struct Chance {
    double value = 0;
    double standard_error = 0;
};

/// √(p(1 − p)/n) with p = (hits + 1)/(n + 2), which leaves some doubt where all or none were hits.
[[nodiscard]] Chance chance_from_hits(std::int64_t hits, std::int64_t trials);

struct FaceOdds {
    std::string name;
    Chance sharp;
};

/// Frames to shoot so that at least one is good, with this certainty; none where no frame ever is.
struct FramesNeeded {
    std::optional<std::int64_t> p90;
    std::optional<std::int64_t> p95;
    std::optional<std::int64_t> p99;
};

struct Odds {
    std::int64_t trials = 0;
    Chance sharp{};  ///< All faces within the grade.
    std::optional<double>
        sharp_closed_form{};        ///< The same by integration, where that can be done.
    double eyes_open = 1;           ///< All eyes, exact.
    Chance both{};                  ///< Their product: nobody blinks because of the focus.
    FramesNeeded frames{};          ///< For both, from the trials.
    std::vector<FaceOdds> faces{};  ///< In the order of Scene::people.
};

/// How many frames, at least 1:
///
///     ⌈ ln(1 − certainty) / ln(1 − good) ⌉
///
/// good       chance of a good frame, 0 … 1
/// certainty  0 … below 1
/// returns    nothing where good is 0, or so small that the number cannot be counted
/// source     [SVENSON2006]
[[nodiscard]] std::optional<std::int64_t> frames_needed(double good, double certainty);

/// Chance that all eyes are open in one frame: (1 − rate·(blink_s + shutter_s))^people.
/// source     [SVENSON2006]
[[nodiscard]] double all_eyes_open(const FrameModel& model);

struct TrialSettings {
    std::int64_t trials = 1'000'000;  ///< > 0
    std::uint64_t seed = 1;
    int threads = 2;  ///< > 0; the answer is the same with any number.
};

/// Shoots that many frames and counts.
[[nodiscard]] Odds odds_by_trials(const FrameModel& model, const TrialSettings& settings);

}  // namespace backrow::plan
