#include "report/answers/odds_report.h"

#include "plan/odds/frame_model.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/lens_words.h"
#include "report/text/text_table.h"
#include "scene/camera_view.h"

#include "base/units.h"
#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

namespace backrow::report {
namespace {

/// Digits after the point that two standard errors leave standing, of a number in per cent.
int digits_within(double error_percent) {
    return std::clamp(static_cast<int>(std::ceil(-std::log10(error_percent))), 1, 4);
}

std::string percent(double share) {
    return fmt::format("{:.1f} %", 100 * share);
}

std::string percent(const plan::Chance& chance) {
    const double error = 200 * chance.standard_error;
    const int digits = digits_within(error);
    return fmt::format("{:.{}f} % ± {:.{}f}", 100 * chance.value, digits, error, digits);
}

std::string camera_line(const scene::Camera& camera) {
    return fmt::format("{} mm at f/{}, shutter {:.6g} s\n", camera.focal_length_mm, camera.f_number,
                       camera.shutter_s);
}

std::string lapses_line(const OddsReport& report) {
    const scene::Odds& lapses = report.lapses;
    std::vector<std::string> parts;
    const auto add = [&](bool is_on, std::string part) {
        if (is_on)
            parts.push_back(std::move(part));
    };
    const auto words = [&](double mm) {
        return length_words(m_from_mm(mm), LengthScale::given_millimetres, report.units);
    };
    add(lapses.sway_mm > 0 || lapses.sideways_sway_mm > 0,
        fmt::format("people sway {} forward and back, {} sideways", words(lapses.sway_mm),
                    words(lapses.sideways_sway_mm)));
    add(lapses.camera_sway_mm > 0, fmt::format("camera {}", words(lapses.camera_sway_mm)));
    add(lapses.autofocus_mm > 0, fmt::format("autofocus {}", words(lapses.autofocus_mm)));
    add(lapses.recompose_deg > 0, fmt::format("recomposed by {}°", lapses.recompose_deg));
    add(lapses.line_up_mm > 0, fmt::format("lining up {}", words(lapses.line_up_mm)));
    add(lapses.blinks_per_min > 0,
        fmt::format("{} blinks a minute of {} s", lapses.blinks_per_min, lapses.blink_s));
    add(report.motion, fmt::format("movement, {} s after the lock", lapses.delay_s));
    return parts.empty() ? "Nothing goes wrong.\n"
                         : fmt::format("What goes wrong: {}\n", fmt::join(parts, "; "));
}

std::string sharp_line(const OddsReport& report) {
    const plan::Odds& odds = report.odds;
    std::string line =
        fmt::format("All faces {}: {}", optics::to_word(report.grade), percent(odds.sharp));
    if (odds.sharp_closed_form)
        line += fmt::format(" (by integration {:.3f} %)", 100 * *odds.sharp_closed_form);
    return line + '\n';
}

std::string frames_line(const plan::FramesNeeded& frames) {
    if (!frames.p90 || !frames.p95 || !frames.p99)
        return "No number of frames is enough: the chance of a good one came out as nothing.\n";
    return fmt::format("Frames to shoot for one good one: {} for 90 % certainty, {} for 95 %, {} "
                       "for 99 %\n",
                       *frames.p90, *frames.p95, *frames.p99);
}

std::string table_of(const OddsReport& report) {
    std::vector<std::vector<std::string>> rows;
    for (const plan::FaceOdds& face : report.odds.faces)
        rows.push_back({face.name, fmt::format("{:.2f}", 100 * face.sharp.value),
                        fmt::format("{:.2f}", 200 * face.sharp.standard_error)});
    return text_table(
        {{"name", Align::left}, {fmt::format("{} %", optics::to_word(report.grade))}, {"± 2 s.e."}},
        rows);
}

std::string weakest_line(const std::vector<plan::FaceOdds>& faces) {
    const auto weakest = std::ranges::min_element(
        faces, {}, [](const plan::FaceOdds& face) { return face.sharp.value; });
    if (weakest == faces.end())
        return {};
    return fmt::format("Least sure: {}, {} of frames.\n", on_one_line(weakest->name),
                       percent(weakest->sharp.value));
}

}  // namespace

OddsReport odds_report(const scene::Scene& scene, optics::Grade grade,
                       const plan::TrialSettings& trials, Units units) {
    const plan::FrameModel model = plan::frame_model(scene, camera_view(scene), grade);
    return {.title = scene.title,
            .camera = scene.camera,
            .lapses = scene.odds,
            .motion = std::ranges::any_of(
                scene.people, [](const scene::Person& person) { return person.speed_mps > 0; }),
            .grade = grade,
            .seed = trials.seed,
            .odds = plan::odds_by_trials(model, trials),
            .units = units,
            .lens_note = perfect_lens_sentence(scene)};
}

std::string odds_text(const OddsReport& report) {
    const std::string title = on_one_line(report.title);
    const plan::Odds& odds = report.odds;
    return (title.empty() ? std::string{} : title + '\n') + camera_line(report.camera) +
           lapses_line(report) + '\n' + sharp_line(report) +
           fmt::format("All eyes open: {}\n", percent(odds.eyes_open)) +
           fmt::format("Both in one frame: {}\n", percent(odds.both)) + frames_line(odds.frames) +
           '\n' + table_of(report) + '\n' + weakest_line(odds.faces) +
           fmt::format("{} trials, seed {}; ± is two standard errors. Frames count as independent: "
                       "leave a few seconds between them.\n",
                       odds.trials, report.seed) +
           perfect_lens_line(report.lens_note);
}

std::string odds_json(const OddsReport& report) {
    const plan::Odds& odds = report.odds;
    Json json{{"title", report.title},
              {"grade", optics::to_word(report.grade)},
              {"lens_note", report.lens_note ? Json(*report.lens_note) : Json(nullptr)},
              {"seed", report.seed},
              {"trials", odds.trials},
              {"sharp", odds.sharp.value},
              {"sharp_standard_error", odds.sharp.standard_error},
              {"sharp_closed_form", number_or_null(odds.sharp_closed_form)},
              {"eyes_open", odds.eyes_open},
              {"both", odds.both.value},
              {"both_standard_error", odds.both.standard_error},
              {"frames",
               {{"p90", number_or_null(odds.frames.p90)},
                {"p95", number_or_null(odds.frames.p95)},
                {"p99", number_or_null(odds.frames.p99)}}},
              {"faces", Json::array()}};
    for (const plan::FaceOdds& face : odds.faces)
        json["faces"].push_back({{"name", face.name},
                                 {"sharp", face.sharp.value},
                                 {"sharp_standard_error", face.sharp.standard_error}});
    return json_text(json);
}

std::string odds_csv(const OddsReport& report) {
    std::string csv = csv_record({"name", "sharp", "sharp_standard_error"});
    for (const plan::FaceOdds& face : report.odds.faces)
        csv += csv_record({face.name, fmt::format("{}", face.sharp.value),
                           fmt::format("{}", face.sharp.standard_error)});
    return csv;
}

}  // namespace backrow::report
