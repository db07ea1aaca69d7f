#include "papers/card/card_facts.h"

#include "plan/faces/screen_check.h"
#include "plan/faces/stop_down.h"
#include "plan/faces/verdict.h"
#include "plan/faces/worst_face.h"
#include "plan/odds/frame_model.h"
#include "scene/rows.h"

#include "optics/exposure/stops.h"

#include <algorithm>
#include <thread>

namespace backrow::papers {
namespace {

// What photographers of groups carry. Common practice, no source.
constexpr std::array usual_focal_lengths_mm{24.0, 35.0, 50.0, 85.0, 135.0};

constexpr std::size_t most_to_check = 3;

std::vector<plan::CarriedLens> usual_lenses_beside(double focal_length_mm) {
    std::vector<plan::CarriedLens> beside;
    const auto& all = usual_focal_lengths_mm;
    const auto longer = std::ranges::upper_bound(all, focal_length_mm);
    const auto same_or_longer = std::ranges::lower_bound(all, focal_length_mm);
    if (same_or_longer != all.begin())
        beside.push_back({.focal_length_mm = *(same_or_longer - 1), .widest_f_number = 0});
    if (longer != all.end())
        beside.push_back({.focal_length_mm = *longer, .widest_f_number = 0});
    return beside;
}

/// From the front.
std::vector<StoodRow> rows_as_they_stand(const scene::Scene& scene, const scene::CameraView& view) {
    std::vector<StoodRow> rows;
    for (std::vector<std::size_t>& people : scene::as_they_stand(scene, view)) {
        const auto in_a_row =
            std::ranges::find_if(people, [&](std::size_t i) { return scene.people[i].row >= 0; });
        const scene::Person& one = scene.people[in_a_row == people.end() ? people[0] : *in_a_row];
        const scene::RowLine line = one.row >= 0 ? scene::row_line(scene, one.row)
                                                 : scene::RowLine{one.place.back_m, one.place.up_m};
        rows.push_back({.people = std::move(people),
                        .behind_front_m = line.back_m,
                        .up_m = line.up_m,
                        .lens_to_row_m = scene.camera.lens_to_mark_m + line.back_m});
    }
    std::ranges::reverse(rows);
    const double front_m = rows.front().behind_front_m;
    for (StoodRow& row : rows)
        row.behind_front_m -= front_m;
    return rows;
}

double room_m(const plan::Face& face) {
    return std::min(face.margin.front_m, face.margin.back_m);
}

/// Nobody where nobody is fine.
std::optional<std::size_t> least_room(const std::vector<plan::Face>& faces) {
    std::optional<std::size_t> least;
    for (std::size_t i = 0; i < faces.size(); ++i)
        if (faces[i].margin.front_m + faces[i].margin.back_m > 0 &&
            (!least || room_m(faces[i]) < room_m(faces[*least])))
            least = i;
    return least;
}

std::vector<std::size_t> to_check(const std::vector<plan::Face>& faces) {
    std::vector<std::size_t> worst = plan::worst_first(faces);
    std::erase_if(worst, [&](std::size_t i) { return !plan::is_seen(faces[i]); });
    worst.resize(std::min(worst.size(), most_to_check));
    return worst;
}

std::vector<plan::FramingLens> other_lenses(const scene::Scene& scene,
                                            const std::vector<plan::CarriedLens>& carried) {
    const auto marks = optics::marked_f_numbers();
    std::vector<plan::FramingLens> lenses = plan::framing_lenses(
        scene, carried.empty() ? usual_lenses_beside(scene.camera.focal_length_mm) : carried,
        {marks.begin(), marks.end()});
    std::erase_if(lenses, [](const plan::FramingLens& lens) { return lens.is_own; });
    return lenses;
}

}  // namespace

CardFacts card_facts(const scene::Scene& as_set, const std::vector<plan::CarriedLens>& lenses) {
    CardFacts facts;
    facts.scene = plan::rightly_exposed(as_set);
    const scene::Scene& scene = facts.scene;
    facts.view = camera_view(scene);
    facts.table = plan::face_table(scene, facts.view);
    facts.above = plan::from_above(scene, facts.view, facts.table);
    facts.side = plan::from_the_side(scene, facts.view, facts.table);
    facts.rows = rows_as_they_stand(scene, facts.view);
    facts.stops_over_as_set = plan::metering(as_set, facts.view).stops_over;
    for (std::size_t i = 0; i < facts.darker.size(); ++i)
        facts.darker[i] = plan::right_exposure_when_darker(scene, static_cast<double>(i + 1));
    facts.least_room = least_room(facts.table.faces);
    facts.out_of_line_f_number = plan::f_number_for_margin(scene, out_of_line_m);
    if (facts.out_of_line_f_number) {
        scene::Scene stopped_down = scene;
        stopped_down.camera.f_number = *facts.out_of_line_f_number;
        facts.out_of_line = plan::exposure_setting(plan::rightly_exposed(stopped_down).camera);
    }
    facts.other_lenses = other_lenses(scene, lenses);
    facts.odds = plan::odds_by_trials(
        plan::frame_model(as_set, facts.view, optics::Grade::fine),
        {.threads = std::max(1, static_cast<int>(std::thread::hardware_concurrency()))});
    facts.to_check = to_check(facts.table.faces);
    facts.magnification = plan::screen_magnification(scene.viewing, scene.camera);
    facts.sun = plan::sun_checks(scene, facts.view, facts.table);
    facts.cautions = plan::shoot_cautions(scene, facts.sun);
    return facts;
}

}  // namespace backrow::papers
