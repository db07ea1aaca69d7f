#include "scene/ground_plan.h"

#include "scene/camera_view.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace backrow::scene {

Patch around(const Patch& a, const Patch& b) {
    return {std::min(a.left_m, b.left_m), std::max(a.right_m, b.right_m),
            std::min(a.near_m, b.near_m), std::max(a.far_m, b.far_m)};
}

bool side_by_side(const Patch& a, const Patch& b) {
    return a.right_m <= b.left_m || b.right_m <= a.left_m;
}

bool overlap(const Patch& a, const Patch& b) {
    return !side_by_side(a, b) && a.far_m > b.near_m && b.far_m > a.near_m;
}

Patch shadow_below(const Person& person, double height_m) {
    Patch shadow;
    for (const figures::Capsule& solid : solids(person)) {
        glm::dvec3 low = solid.from_m;
        glm::dvec3 high = solid.to_m;
        if (low.y > high.y)
            std::swap(low, high);
        if (low.y >= height_m)
            continue;
        if (high.y > height_m)
            high = low + (high - low) * ((height_m - low.y) / (high.y - low.y));
        for (const glm::dvec3& end : {low, high})
            shadow = around(shadow, {end.x - solid.radius_m, end.x + solid.radius_m,
                                     -end.z - solid.radius_m, -end.z + solid.radius_m});
    }
    return shadow;
}

bool on_one_level(double a_m, double b_m) {
    constexpr double same_level_m = 0.001;
    return std::abs(a_m - b_m) < same_level_m;
}

std::vector<RowOfPeople> rows_of(const std::vector<Person>& people) {
    std::map<int, RowOfPeople> by_number;
    for (const Person& person : people)
        if (person.row >= 0)
            by_number[person.row].push_back(&person);
    std::vector<RowOfPeople> rows;
    for (auto& [number, row] : by_number) {
        std::ranges::stable_sort(row, {},
                                 [](const Person* person) { return person->place.across_m; });
        rows.push_back(std::move(row));
    }
    return rows;
}

setting::Block block_on(const Patch& patch, double top_m) {
    return {.left_m = patch.left_m,
            .right_m = patch.right_m,
            .near_back_m = patch.near_m,
            .far_back_m = patch.far_m,
            .top_m = top_m};
}

}  // namespace backrow::scene
