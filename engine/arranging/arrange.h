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
// - who belongs together stands together (arrange_company.h);
// - the camera at the height of the eyes, as far away as the group needs to fill the frame.

#include "scene/group_plan.h"

#include "base/length_words.h"
#include "base/problem.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::arranging {

/// Who is so old, in years, has a seat in the middle of the front row; in a seated row, who is no
/// taller stands: a child's head is then as high as the heads of those who sit. By eye.
inline constexpr double eldest_from_years = 65;
inline constexpr double small_child_m = 1.30;

/// From so many rows on the front one sits.
inline constexpr std::size_t rows_that_sit = 3;

inline constexpr double oldest_child_years = 17;

/// Up to so many people are photographed from farther off with a longer lens.
inline constexpr int few_people = 5;

/// What is asked for. Grown people come first in lists, then children.
struct GroupWishes {
    /// 1 … scene::limits::most_people, children among them; none: those who are named, and the
    /// children of child_ages.
    std::optional<int> people{};
    std::optional<int> rows{};         ///< None: as many as the frame's shape asks for.
    std::vector<double> statures_m{};  ///< Of grown people; the rest as in a population.
    std::vector<double> child_ages{};  ///< Years.
    std::vector<std::string> names{};  ///< In the same order; the rest from our own list.
    /// Of whom more is known, each once: stature, age, family, who stays beside them, whether they
    /// sit, kneel or are carried, and by whom. Those who are not among `names` are named by this,
    /// and everybody whom they name.
    std::vector<scene::Guest> known{};
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
