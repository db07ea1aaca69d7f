#include "rehearsal/as_they_stand.h"

#include "rehearsal/row_handling.h"

#include "scene/set_people.h"

#include <algorithm>
#include <cmath>

namespace backrow::rehearsal {
namespace {

struct StoodRow {
    std::vector<std::size_t> people;
    double back_m = 0;  ///< Of its line.
};

}  // namespace

std::vector<std::vector<std::size_t>> as_they_stand(const scene::Scene& scene,
                                                    const scene::CameraView& view) {
    constexpr double a_step_m = 0.3;
    std::vector<StoodRow> rows;
    for (int row = 0; row < scene::row_count(scene); ++row)
        if (std::vector<std::size_t> people = people_in_row(scene, row); !people.empty())
            rows.push_back({std::move(people), row_line(scene, row).back_m});
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const scene::Person& alone = scene.people[i];
        if (alone.row >= 0)
            continue;
        const auto distance_m = [&](const StoodRow& row) {
            return std::abs(row.back_m - alone.place.back_m);
        };
        const auto nearest = std::ranges::min_element(rows, {}, distance_m);
        if (nearest != rows.end() && distance_m(*nearest) <= a_step_m)
            nearest->people.push_back(i);
        else
            rows.push_back({{i}, alone.place.back_m});
    }
    std::ranges::stable_sort(rows, std::greater{}, &StoodRow::back_m);
    std::vector<std::vector<std::size_t>> ordered;
    for (StoodRow& row : rows) {
        std::ranges::stable_sort(row.people, {}, [&](std::size_t i) {
            const scene::Seen seen = project(view, nearer_eye_m(view, scene.people[i]));
            return seen.axial_m > 0 ? seen.at_px.x : view.width_px;
        });
        ordered.push_back(std::move(row.people));
    }
    return ordered;
}

}  // namespace backrow::rehearsal
