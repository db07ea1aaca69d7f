#pragma once

// What distance and aperture do to the group, in sentences; for the chart and for the table alike.

#include "plan/comparing/tradeoff.h"
#include "scene/scene.h"

#include "base/length_words.h"

#include <string>
#include <vector>

namespace backrow::report {

struct TradeoffReport {
    scene::Scene scene;
    plan::Tradeoff tradeoff;
    Units units = Units::metric;  ///< Of text and chart.
};

/// "f/2.8".
[[nodiscard]] std::string f_words(double f_number);

/// "9.4 m": as typed, two digits after the point at most.
[[nodiscard]] std::string distance_words(double m, Units units);

/// "3.6 arcmin", "14 px": two digits that count.
[[nodiscard]] std::string judged_words(optics::JudgedBlur blur);

/// "2.75′", "4.5 px": as short as it can be, for a line or a shade.
[[nodiscard]] std::string level_words(double level, const scene::Viewing& viewing);

/// "focus on Odile's nearer eye", for every distance anew.
[[nodiscard]] std::string focus_words(const scene::Scene& scene, Units units = Units::metric);

/// The answer in sentences: from where on every face is fine, from where on crisp; one of them
/// where it says all.
[[nodiscard]] std::vector<std::string> answer_sentences(const TradeoffReport& report);

/// What balancing the focus would do at the present distance; empty where the scene does it already
/// or nothing is left to gain.
[[nodiscard]] std::string balanced_words(const TradeoffReport& report);

/// From where on every head is whole in the picture, and where or through which lens everybody
/// would be; empty where all are so from every distance and now.
[[nodiscard]] std::string framing_words(const TradeoffReport& report);

/// Whether the frame cuts heads from some distance of the range.
[[nodiscard]] bool cuts_heads(const TradeoffReport& report);

/// The present setting: distance, aperture, worst face and background. No full stop.
[[nodiscard]] std::string now_words(const TradeoffReport& report);

/// How to read the chart, in sentences; of the borders of the grades only what it shows.
[[nodiscard]] std::string how_to_read(const TradeoffReport& report);

}  // namespace backrow::report
