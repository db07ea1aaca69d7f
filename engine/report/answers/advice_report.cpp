#include "report/answers/advice_report.h"

#include "report/text/caution_words.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/lens_words.h"

#include "base/units.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <cstddef>
#include <optional>

namespace backrow::report {
namespace {

std::string field(const Json& value) {
    if (value.is_null())
        return {};
    return value.is_string() ? value.get<std::string>() : value.dump();
}

Json focus_json(const plan::Answer& answer) {
    const auto* on = std::get_if<scene::FocusOnPerson>(&answer.scene.focus);
    return {{"on", on != nullptr ? Json(on->name) : Json(nullptr)},
            {"distance_m", answer.view.lens.focus_m}};
}

/// What the setting of the scene as it is makes of the light.
Json present_json(const scene::Scene& scene) {
    const plan::Metering metering = plan::metering(scene, camera_view(scene));
    return {{"f_number", scene.camera.f_number},
            {"shutter_s", scene.camera.shutter_s},
            {"iso", scene.camera.iso},
            {"filter_stops", scene.camera.filter_stops},
            {"scene_ev100", metering.scene_ev100},
            {"stops_over", metering.stops_over}};
}

Json answer_json(const scene::Scene& scene, const plan::Answer& answer) {
    const plan::Face& worst = answer.table.faces[answer.worst];
    Json json{
        {"f_number", answer.view.lens.f_number},
        {"distance_m", answer.scene.camera.lens_to_mark_m},
        {"focal_length_mm", answer.view.lens.focal_length_mm},
        {"lens",
         {{"profile",
           answer.scene.lens.profile ? Json(answer.scene.lens.profile_file) : Json(nullptr)},
          {"taken_as_perfect", !answer.scene.lens.profile}}},
        {"focus", focus_json(answer)},
        {"moves", Json::array()},
        {"worst_face", worst.name},
        {"worst_view_arcmin", number_or_null(arcmin_of(worst.judged_blur))},
        {"worst_blur_px", number_or_null(worst.predicted_blur_px)},
        {"worst_share_of_limit", number_or_null(answer.worst_share)},
        {"drifted_share_of_limit", number_or_null(answer.drifted_share)},
        {"grade", optics::to_word(worst.grade)},
        {"background_blur_percent", number_or_null(answer.background.percent_of_height)},
        {"background_blur_percent_of_head", number_or_null(answer.background.percent_of_head)},
        {"stops_lost", answer.stops_lost},
        {"shutter_s", answer.scene.camera.shutter_s},
        {"iso", answer.scene.camera.iso},
        {"filter_stops", answer.scene.camera.filter_stops},
        {"stops_over", answer.table.metering.stops_over},
        {"motion_limit_s", number_or_null(answer.table.metering.motion_limit_s)},
        {"framing",
         {{"size", answer.framing.size},
          {"crop", answer.framing.crop},
          {"restoring_focal_length_mm", answer.framing.restoring_focal_length_mm}}},
        {"cautions", caution_sentences(answer.cautions)},
        {"set", plan::values_for(scene, answer)},
        {"faces", Json::array()}};
    for (const plan::Move& move : answer.moves)
        json["moves"].push_back(
            {{"name", move.name}, {"across_m", 0.0}, {"back_m", m_from_cm(move.back_cm)}});
    for (std::size_t i = 0; i < answer.table.faces.size(); ++i) {
        const plan::Face& face = answer.table.faces[i];
        json["faces"].push_back({{"name", face.name},
                                 {"grade", optics::to_word(face.grade)},
                                 {"margin_front_m", number_or_null(answer.margins[i].front_m)},
                                 {"margin_back_m", number_or_null(answer.margins[i].back_m)},
                                 {"face_height_px", number_or_null(face.face_height_px)}});
    }
    return json;
}

/// null for `best` where nothing holds; `answers` counts from 0.
Json outcome_json(const plan::LensOutcome& outcome) {
    Json json{{"focal_length_mm", outcome.lens.focal_length_mm},
              {"widest_f_number", outcome.lens.widest_f_number},
              {"taken_as_perfect", outcome.is_perfect},
              {"answers", outcome.answers},
              {"loses_faces", outcome.loses_faces},
              {"best", nullptr}};
    if (outcome.best)
        json["best"] = {{"f_number", outcome.best->f_number},
                        {"distance_m", outcome.best->lens_to_mark_m},
                        {"background_blur_percent", outcome.best->background_percent}};
    return json;
}

}  // namespace

std::optional<std::string> lens_note(const plan::Advice& advice) {
    for (const plan::Answer& answer : advice.answers)
        if (auto sentence = perfect_lens_sentence(answer.scene))
            return sentence;
    return std::nullopt;
}

std::string advice_json(const AdviceReport& report) {
    const auto note = lens_note(report.advice);
    Json json{{"title", report.scene.title},
              {"possible", !report.advice.answers.empty()},
              {"wanted_grade", optics::to_word(report.wanted.grade)},
              {"present", present_json(report.scene)},
              {"lens_note", note ? Json(*note) : Json(nullptr)},
              {"margin_cm", report.wanted.margin_cm},
              {"movers_max", movers_allowed(report.wanted, report.scene.people.size())},
              {"lenses", Json::array()},
              {"cautions", caution_sentences(all_cautions(report.advice))},
              {"answers", Json::array()}};
    for (const plan::LensOutcome& outcome : report.advice.lenses)
        json["lenses"].push_back(outcome_json(outcome));
    for (const plan::Answer& answer : report.advice.answers)
        json["answers"].push_back(answer_json(report.scene, answer));
    if (report.advice.nearest)
        json["nearest"] = answer_json(report.scene, *report.advice.nearest);
    return json_text(json);
}

std::string advice_csv(const AdviceReport& report) {
    std::string csv =
        csv_record({"possible", "f_number", "distance_m", "focal_length_mm", "focus_on",
                    "focus_distance_m", "moves", "worst_face", "worst_view_arcmin", "worst_blur_px",
                    "grade", "background_blur_percent", "stops_lost", "shutter_s", "iso", "faces",
                    "filter_stops", "stops_over", "cautions"});
    const auto record = [&](const plan::Answer& answer, bool possible) {
        const Json json = answer_json(report.scene, answer);
        std::vector<std::string> moves, faces;
        for (const Json& move : json["moves"])
            moves.push_back(fmt::format("{} {}", move["name"].get<std::string>(),
                                        move["back_m"].get<double>()));
        for (const Json& face : json["faces"])
            faces.push_back(fmt::format("{} {}", face["name"].get<std::string>(),
                                        face["grade"].get<std::string>()));
        csv += csv_record({possible ? "true" : "false", field(json["f_number"]),
                           field(json["distance_m"]), field(json["focal_length_mm"]),
                           field(json["focus"]["on"]), field(json["focus"]["distance_m"]),
                           fmt::format("{}", fmt::join(moves, "; ")), field(json["worst_face"]),
                           field(json["worst_view_arcmin"]), field(json["worst_blur_px"]),
                           field(json["grade"]), field(json["background_blur_percent"]),
                           field(json["stops_lost"]), field(json["shutter_s"]), field(json["iso"]),
                           fmt::format("{}", fmt::join(faces, "; ")), field(json["filter_stops"]),
                           field(json["stops_over"]),
                           fmt::format("{}", fmt::join(caution_sentences(answer.cautions), " "))});
    };
    for (const plan::Answer& answer : report.advice.answers)
        record(answer, true);
    if (report.advice.nearest)
        record(*report.advice.nearest, false);
    return csv;
}

}  // namespace backrow::report
