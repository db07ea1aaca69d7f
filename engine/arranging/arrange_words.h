#pragma once

// What was decided about a group, in words.

#include "arranging/arrange.h"

#include <string>
#include <vector>

namespace backrow::arranging {

/// What the reasons need to know beside the plan.
struct ArrangedFrom {
    const GroupWishes& wishes;
    const scene::GroupPlan& plan;
    const scene::Scene& scene;         ///< scene_of(plan)
    double least_spacing_m = 0;        ///< What bodies ask for.
    std::vector<double> needed_ups_m;  ///< Of each row, for this camera.
    double eye_depth_m = 0;
    double eye_depth_of_loose_rows_m = 0;
};

/// The first few, and how many more there are.
[[nodiscard]] std::string some_of(const std::vector<std::string>& words, const char* between);

/// Who is celebrated, has a seat, belongs to a family, stays beside somebody or is carried.
[[nodiscard]] std::vector<Choice> choices_of_company(const scene::GroupPlan& plan);

/// What to mind where people stand on something, sit or carry.
[[nodiscard]] std::vector<std::string> cautions_of_places(const scene::GroupPlan& plan);

[[nodiscard]] std::vector<Choice> choices_of(const ArrangedFrom& from);
[[nodiscard]] std::vector<std::string> cautions_of(const ArrangedFrom& from);

}  // namespace backrow::arranging
