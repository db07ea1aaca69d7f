#include "report/strip/strip_report.h"

#include "plan/faces/troubles.h"
#include "report/text/caution_words.h"
#include "report/text/csv.h"
#include "report/text/exposure_words.h"
#include "report/text/json.h"
#include "report/text/text_table.h"
#include "report/text/trouble_words.h"
#include "report/text/viewing_words.h"
#include "report/tradeoff/tradeoff_words.h"

#include "optics/exposure/stops.h"

#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace backrow::report {
namespace {

bool is_now(const scene::Scene& scene, const plan::StripPlace& place) {
    return place.lens_to_mark_m == scene.camera.lens_to_mark_m &&
           place.focal_length_mm == scene.camera.focal_length_mm;
}

Json box_json(const Box& box) {
    return {box.left, box.top, box.width, box.height};
}

std::pair<std::size_t, std::size_t> row_and_column(const StripReport& report, std::size_t i) {
    const std::size_t columns = report.layout.column_heads.size();
    return {i / columns, i % columns};
}

/// "-" where nothing is wrong with the picture but blur.
std::string trouble_or_nothing(const plan::StripFrame& frame) {
    const std::string words = short_trouble_words(frame.faces);
    return words.empty() ? "-" : words;
}

Json frame_json(const StripReport& report, std::size_t i) {
    const plan::StripFrame& frame = report.subject.strip.frames[i];
    const plan::Face& worst = worst_of(report.subject, i);
    const auto [row, column] = row_and_column(report, i);
    const plan::Troubles troubles = plan::troubles_of(frame.faces);
    const auto& people = report.subject.scene.people;
    return {{"row", row},
            {"column", column},
            {"f_number", f_number_of(report.subject, i)},
            {"distance_m", place_of(report.subject, i).lens_to_mark_m},
            {"focal_length_mm", place_of(report.subject, i).focal_length_mm},
            {"focus_m", frame.view.lens.focus_m},
            {"worst_face", worst.name},
            {"worst_blur_um", worst.predicted_blur_um},
            {"worst_blur_px", worst.predicted_blur_px},
            {"worst_measured_blur_px", number_or_null(report.made[i].measured_blur_px)},
            {"worst_view_arcmin", number_or_null(arcmin_of(worst.judged_blur))},
            {"grade", optics::to_word(worst.grade)},
            {"worst_face_height_px", worst.face_height_px},
            {"worst_visible_fraction", worst.visible_fraction},
            {"faces_in_frame", frame.faces_in_frame},
            {"hidden", names_json(people, troubles.hidden)},
            {"heads_cut", names_json(people, troubles.cut.heads)},
            {"bodies_cut", names_json(people, troubles.cut.bodies)},
            {"background_blur_percent", frame.background_percent},
            {"stops_lost", frame.stops_lost},
            {"shutter_s", frame.exposure.shutter_s},
            {"iso", frame.exposure.iso},
            {"filter_stops", frame.exposure.filter_stops},
            {"samples", report.made[i].samples},
            {"frame_box", box_json(report.layout.cells[i].whole)},
            {"face_box", box_json(report.layout.cells[i].face)}};
}

Json place_json(const StripSubject& subject, std::size_t place) {
    return {{"distance_m", subject.strip.places[place].lens_to_mark_m},
            {"focal_length_mm", subject.strip.places[place].focal_length_mm},
            {"amiss", trouble_sentences(subject.strip.frame(place, 0).faces)},
            {"whole_group", whole_group_json(subject.strip.whole_groups[place])}};
}

/// What is amiss from each place and what mends it; no aperture has a part in it. A single place
/// has a line for each sentence, as in the table of faces, several have a line each.
std::string trouble_lines(const StripSubject& subject) {
    std::string lines;
    const bool is_one = subject.strip.places.size() == 1;
    for (std::size_t i = 0; i < subject.strip.places.size(); ++i) {
        std::vector<std::string> sentences = trouble_sentences(subject.strip.frame(i, 0).faces);
        if (std::string mend = whole_group_sentence(subject.strip.whole_groups[i], subject.units);
            !mend.empty())
            sentences.push_back(std::move(mend));
        if (sentences.empty())
            continue;
        const plan::StripPlace& place = subject.strip.places[i];
        if (!is_one)
            lines += fmt::format(
                "From {} with {}: ", distance_words(place.lens_to_mark_m, subject.units),
                lens_words(place.focal_length_mm));
        lines += fmt::format("{}\n", fmt::join(sentences, is_one ? "\n" : " "));
    }
    return lines;
}

}  // namespace

std::string strip_text(const StripReport& report) {
    const std::string title = on_one_line(report.subject.scene.title);
    std::string text = title.empty() ? std::string{} : title + '\n';
    text += strip_common_words(report.subject) + "\n\n";
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < report.subject.strip.frames.size(); ++i) {
        const plan::StripFrame& frame = report.subject.strip.frames[i];
        const plan::Face& worst = worst_of(report.subject, i);
        const plan::StripPlace& place = place_of(report.subject, i);
        const auto measured = report.made[i].measured_blur_px;
        const bool now = is_now(report.subject.scene, place) &&
                         f_number_of(report.subject, i) == report.subject.scene.camera.f_number;
        rows.push_back(
            {length_digits(place.lens_to_mark_m, LengthScale::short_metres, report.subject.units),
             fmt::format("{:g}", std::round(place.focal_length_mm * 10) / 10),
             f_words(f_number_of(report.subject, i)) + (now ? "*" : ""), on_one_line(worst.name),
             fmt::format("{:.1f}", worst.predicted_blur_px),
             measured ? fmt::format("{:.1f}", *measured) : "-",
             worst.judged_blur.unit == optics::BlurUnit::arcmin
                 ? fmt::format("{:.1f}", worst.judged_blur.amount)
                 : "-",
             optics::to_word(worst.grade), fmt::format("{:.2f}", frame.background_percent),
             optics::stops_words(frame.stops_lost), trouble_or_nothing(frame)});
    }
    text += text_table(
        {{fmt::format("distance {}", length_unit(LengthScale::metres, report.subject.units))},
         {"lens mm"},
         {"aperture"},
         {"least sharp", Align::left},
         {"blur px"},
         {"measured px"},
         {"arcmin"},
         {"grade", Align::left},
         {"background %"},
         {"light lost"},
         {"amiss", Align::left}},
        rows);
    text += "\n* the present setting.\n";
    const scene::Scene& now = report.subject.scene;
    if (const std::string present = present_exposure_words(plan::metering(now, camera_view(now)));
        !present.empty())
        text += present + '\n';
    text += grades_line(report.subject.scene.viewing, report.subject.units);
    const std::string profile = profile_words(report.subject.scene, report.subject.strip);
    if (!profile.empty())
        text += profile + '\n';
    text += trouble_lines(report.subject);
    return text + caution_lines(report.subject.strip.cautions);
}

std::string strip_json(const StripReport& report) {
    Json json{{"title", report.subject.scene.title},
              {"focus", focus_words(report.subject.scene)},
              {"framing_kept", report.subject.framing_kept},
              {"sheet",
               {{"width_px", report.layout.width_px},
                {"height_px", report.layout.height_px},
                {"face_scale", report.face_scale}}},
              {"cautions", caution_sentences(report.subject.strip.cautions)},
              {"places", Json::array()},
              {"frames", Json::array()}};
    for (std::size_t i = 0; i < report.subject.strip.places.size(); ++i)
        json["places"].push_back(place_json(report.subject, i));
    for (std::size_t i = 0; i < report.subject.strip.frames.size(); ++i)
        json["frames"].push_back(frame_json(report, i));
    return json_text(json);
}

std::string strip_csv(const StripReport& report) {
    std::string csv = csv_record({"row",
                                  "column",
                                  "f_number",
                                  "distance_m",
                                  "focal_length_mm",
                                  "focus_m",
                                  "worst_face",
                                  "worst_blur_um",
                                  "worst_blur_px",
                                  "worst_measured_blur_px",
                                  "worst_view_arcmin",
                                  "grade",
                                  "worst_face_height_px",
                                  "worst_visible_fraction",
                                  "faces_in_frame",
                                  "hidden",
                                  "heads_cut",
                                  "bodies_cut",
                                  "background_blur_percent",
                                  "stops_lost",
                                  "samples",
                                  "shutter_s",
                                  "iso",
                                  "filter_stops"});
    for (std::size_t i = 0; i < report.subject.strip.frames.size(); ++i) {
        const plan::StripFrame& frame = report.subject.strip.frames[i];
        const plan::Face& worst = worst_of(report.subject, i);
        const auto [row, column] = row_and_column(report, i);
        const plan::Troubles troubles = plan::troubles_of(frame.faces);
        csv += csv_record({fmt::format("{}", row),
                           fmt::format("{}", column),
                           fmt::format("{}", f_number_of(report.subject, i)),
                           fmt::format("{}", place_of(report.subject, i).lens_to_mark_m),
                           fmt::format("{}", place_of(report.subject, i).focal_length_mm),
                           fmt::format("{}", frame.view.lens.focus_m),
                           worst.name,
                           fmt::format("{}", worst.predicted_blur_um),
                           fmt::format("{}", worst.predicted_blur_px),
                           number_field(report.made[i].measured_blur_px),
                           number_field(arcmin_of(worst.judged_blur)),
                           optics::to_word(worst.grade),
                           fmt::format("{}", worst.face_height_px),
                           fmt::format("{}", worst.visible_fraction),
                           fmt::format("{}", frame.faces_in_frame),
                           fmt::format("{}", troubles.hidden.size()),
                           fmt::format("{}", troubles.cut.heads.size()),
                           fmt::format("{}", troubles.cut.bodies.size()),
                           fmt::format("{}", frame.background_percent),
                           fmt::format("{}", frame.stops_lost),
                           fmt::format("{}", report.made[i].samples),
                           fmt::format("{}", frame.exposure.shutter_s),
                           fmt::format("{}", frame.exposure.iso),
                           fmt::format("{}", frame.exposure.filter_stops)});
    }
    return csv;
}

}  // namespace backrow::report
