#pragma once

// Putting a group together: from how many people there are, and whatever else is known or wished,
// to rows, places, postures and a camera, each with the reason for it. Nothing is drawn by lot: the
// same wishes give the same group.
//
// The rules, common practice where no source is named:
// - tall behind small, and within a row the taller towards the middle;
// - every face clear of whatever stands before it, as the camera sees it; where bodies alone do not
//   do that, the row behind is raised by as much as is missing;
// - faces as near to one plane as bodies allow: rows stand toe to heel, and those behind lean in;
// - the camera at the height of the eyes, as far away as the group needs to fill the frame.

#include "scene/group_plan.h"

#include "base/length_words.h"
#include "base/problem.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::arranging {

/// Up to so many people are photographed from farther off with a longer lens.
inline constexpr int few_people = 5;

/// What is asked for; only `people` must be. Grown people come first in lists, then children.
struct GroupWishes {
    int people = 0;                    ///< 1 … scene::limits::most_people, children among them.
    std::optional<int> rows{};         ///< None: as many as the frame's shape asks for.
    std::vector<double> statures_m{};  ///< Of grown people; the rest as in a population.
    std::vector<double> child_ages{};  ///< Years.
    std::vector<std::string> names{};  ///< In the same order; the rest from our own list.
    std::optional<figures::Posture> front{};
    std::optional<bool> stagger{};      ///< Heads behind gaps rather than behind heads.
    std::optional<double> spacing_m{};  ///< From one middle to the next.
    std::optional<double> step_m{};     ///< Each row stands this much above the one in front.
    std::optional<double> focal_length_mm{};
    std::optional<double> f_number{};
    std::optional<scene::Orientation> orientation{};
    scene::Use use = scene::Use::album;
    double fill = 0.85;           ///< Share of the frame's width or height, 0.3 … 1.
    Units units = Units::metric;  ///< Of the reasons.
};

/// One thing that was decided.
struct Choice {
    std::string what;
    std::string value;
    std::string why;
};

struct Arrangement {
    scene::GroupPlan plan;
    std::vector<Choice> choices;
    std::vector<std::string> cautions;     ///< Sentences.
    double eye_depth_m = 0;                ///< Axial, from the nearest to the farthest eye.
    double eye_depth_of_loose_rows_m = 0;  ///< The same people upright, rows a metre apart.
};

/// errors  what in the wishes cannot be; Place::file is the option, "--heights", line 0
[[nodiscard]] Checked<Arrangement> arrange(const GroupWishes& wishes);

}  // namespace backrow::arranging
