#include "scene/rows.h"

#include "scene/set_people.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

namespace backrow::scene {
namespace {

struct StoodRow {
    std::vector<std::size_t> people;
    double back_m = 0;  ///< Of its line.
};

}  // namespace

std::vector<std::size_t> people_in_row(const Scene& scene, int row) {
    std::vector<std::size_t> people;
    for (std::size_t i = 0; i < scene.people.size(); ++i)
        if (scene.people[i].row == row)
            people.push_back(i);
    return people;
}

RowLine row_line(const Scene& scene, int row) {
    const auto somebody = std::ranges::find(scene.people, row, &Person::row);
    return {somebody->place.back_m - somebody->own.back_m,
            somebody->place.up_m - somebody->own.up_m};
}

std::vector<std::vector<std::size_t>> as_they_stand(const Scene& scene, const CameraView& view) {
    constexpr double a_step_m = 0.3;
    std::vector<StoodRow> rows;
    for (int row = 0; row < row_count(scene); ++row)
        if (std::vector<std::size_t> people = people_in_row(scene, row); !people.empty())
            rows.push_back({std::move(people), row_line(scene, row).back_m});
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const Person& alone = scene.people[i];
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
            const Seen seen = project(view, nearer_eye_m(view, scene.people[i]));
            return seen.axial_m > 0 ? seen.at_px.x : view.width_px;
        });
        ordered.push_back(std::move(row.people));
    }
    return ordered;
}

}  // namespace backrow::scene
