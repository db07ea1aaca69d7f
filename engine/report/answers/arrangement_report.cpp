#include "report/answers/arrangement_report.h"

#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/text_table.h"

#include "scene/words.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

namespace backrow::report {
namespace {

/// To a tenth of a millimetre: sums of decimal places otherwise show how doubles are kept.
double rounded(double m) {
    constexpr double steps = 1e4;
    const double whole = std::round(m * steps) / steps;
    return whole == 0 ? 0 : whole;
}

std::string posture_word(const scene::Person& person) {
    return std::string{scene::word_for(scene::words::posture, person.pose.posture)};
}

}  // namespace

std::string arrangement_text(const ArrangementReport& report) {
    const arranging::Arrangement& arrangement = report.arrangement;
    std::vector<std::vector<std::string>> rows;
    for (const arranging::Choice& choice : arrangement.choices)
        rows.push_back({choice.what, choice.value, choice.why});
    std::string text =
        fmt::format("{}, written to {}\n\n", arrangement.plan.title, on_one_line(report.file)) +
        text_table({{"what", Align::left}, {"chosen", Align::left}, {"why", Align::left}}, rows) +
        '\n';
    for (const std::string& caution : arrangement.cautions)
        text += fmt::format("Mind: {}\n", caution);
    return text;
}

std::string arrangement_json(const ArrangementReport& report) {
    const arranging::Arrangement& arrangement = report.arrangement;
    const scene::GroupPlan& plan = arrangement.plan;
    const scene::Camera& camera = plan.camera;
    Json json{{"title", plan.title},
              {"file", report.file},
              {"camera",
               {{"focal_length_mm", camera.focal_length_mm},
                {"f_number", camera.f_number},
                {"orientation", scene::word_for(scene::words::orientation, camera.orientation)},
                {"distance_m", camera.lens_to_mark_m},
                {"height_m", camera.height_m},
                {"across_m", camera.across_m}}},
              {"spacing_m", plan.spacing_m},
              {"eye_depth_m", arrangement.eye_depth_m},
              {"eye_depth_of_loose_rows_m", arrangement.eye_depth_of_loose_rows_m},
              {"rows", Json::array()},
              {"carried", Json::array()},
              {"choices", Json::array()},
              {"cautions", arrangement.cautions}};
    for (const scene::PlannedRow& row : plan.rows) {
        Json people = Json::array();
        for (const scene::Guest& guest : row.people)
            people.push_back(guest.name);
        json["rows"].push_back({{"back_m", row.back_m},
                                {"up_m", row.up_m},
                                {"stagger", row.stagger},
                                {"posture", scene::word_for(scene::words::posture, row.posture)},
                                {"lean_m", row.lean_m},
                                {"people", std::move(people)}});
    }
    for (const scene::Guest& child : plan.carried)
        json["carried"].push_back({{"name", child.name}, {"carried_by", child.carried_by}});
    for (const arranging::Choice& choice : arrangement.choices)
        json["choices"].push_back(
            {{"what", choice.what}, {"value", choice.value}, {"why", choice.why}});
    return json_text(json);
}

std::string arrangement_csv(const ArrangementReport& report) {
    std::string csv =
        csv_record({"name", "row", "across_m", "back_m", "up_m", "stature_m", "posture"});
    for (const scene::Person& person : scene_of(report.arrangement.plan).people)
        csv += csv_record(
            {person.name, std::to_string(person.row + 1),
             fmt::format("{}", rounded(person.place.across_m)),
             fmt::format("{}", person.place.back_m), fmt::format("{}", person.place.up_m),
             fmt::format("{}", rounded(person.measures.stature_m)), posture_word(person)});
    return csv;
}

}  // namespace backrow::report
