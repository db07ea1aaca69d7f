#include "report/strip_report.h"

#include "report/csv.h"
#include "report/text_table.h"
#include "report/tradeoff_words.h"
#include "report/utf8.h"
#include "report/viewing_words.h"

#include "optics/payment.h"
#include "optics/stops.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <utility>

namespace backrow::report {
namespace {

using Json = nlohmann::ordered_json;

std::string lens_words(double focal_length_mm) {
    return fmt::format("{:g} mm", std::round(focal_length_mm * 10) / 10);
}

std::string capitalised(std::string words) {
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    return words;
}

const plan::StripPlace& place_of(const StripReport& report, std::size_t frame) {
    return report.strip.places[frame / report.strip.f_numbers.size()];
}

double f_number_of(const StripReport& report, std::size_t frame) {
    return report.strip.f_numbers[frame % report.strip.f_numbers.size()];
}

const plan::Face& worst_of(const StripReport& report, std::size_t frame) {
    return report.strip.frames[frame].worst->face;
}

/// In the unit that grades go by.
double judged(const plan::Face& face) {
    return face.view_arcmin.value_or(face.predicted_blur_px);
}

bool is_now(const StripReport& report, const plan::StripPlace& place) {
    return place.lens_to_mark_m == report.scene.camera.lens_to_mark_m &&
           place.focal_length_mm == report.scene.camera.focal_length_mm;
}

StripHead aperture_head(const StripReport& report, double f_number) {
    const scene::Camera& camera = report.scene.camera;
    const double stops = optics::stops_between(camera.f_number, f_number);
    return {.title = f_words(f_number),
            .note = f_number == camera.f_number
                        ? "as the scene has it"
                        : optics::payment_words({.shutter_s = camera.shutter_s, .iso = camera.iso},
                                                stops)};
}

StripHead place_head(const StripReport& report, const plan::StripPlace& place) {
    const std::string distance = distance_words(place.lens_to_mark_m);
    const std::string lens = lens_words(place.focal_length_mm);
    return report.places_by == PlacesBy::distance ? StripHead{.title = distance, .note = lens}
                                                  : StripHead{.title = lens, .note = distance};
}

/// What is the same in all frames.
std::string common_words(const StripReport& report) {
    std::string words = capitalised(focus_words(report.scene));
    const plan::Strip& strip = report.strip;
    if (strip.places.size() == 1)
        words += fmt::format("; {} from {}", lens_words(strip.places[0].focal_length_mm),
                             distance_words(strip.places[0].lens_to_mark_m));
    if (strip.f_numbers.size() == 1)
        words += "; " + f_words(strip.f_numbers[0]);
    if (report.framing_kept)
        words += report.places_by == PlacesBy::distance
                     ? "; heads as large in every frame: the lens follows the distance"
                     : "; heads as large in every frame: the distance follows the lens";
    return words + ".";
}

/// What is wrong with a frame besides blur; empty where nothing is.
std::string complaint_about(const plan::StripFrame& frame, std::size_t people) {
    constexpr double half = 0.5;
    if (frame.faces_in_frame < people)
        return fmt::format("{} of {} faces in the frame", frame.faces_in_frame, people);
    return frame.worst->face.visible_fraction < half ? "more than half of it hidden" : "";
}

/// A lens with its faults beside lenses without any would be judged unfairly unasked. Empty where
/// all are alike.
std::string profile_words(const scene::Scene& scene, const plan::Strip& strip) {
    const double own_mm = scene.camera.focal_length_mm;
    const bool all_own = std::ranges::all_of(strip.places, [&](const plan::StripPlace& place) {
        return place.focal_length_mm == own_mm;
    });
    return !scene.lens.profile || all_own
               ? std::string{}
               : fmt::format("The lens profile is that of the {:g} mm; lenses of other focal "
                             "lengths are taken as perfect.",
                             own_mm);
}

std::vector<std::string> foot_words(const StripReport& report) {
    constexpr double percent = 100;
    std::string grades = grades_line(report.scene.viewing);
    grades.pop_back();
    std::vector<std::string> words{
        fmt::format("{} each frame its least sharp face, outlined there, at {:.0f} % of the "
                    "camera's pixels; the same scale for all.",
                    report.layout.faces_beside ? "Beside" : "Under", percent * report.face_scale),
        grades,
        "Blur of the background: the disc of a point of light there, against the height of the "
        "picture."};
    if (std::string profile = profile_words(report.scene, report.strip); !profile.empty())
        words.push_back(std::move(profile));
    return words;
}

Json box_json(const Box& box) {
    return {box.left, box.top, box.width, box.height};
}

Json value_or_null(const std::optional<double>& number) {
    return number ? Json(*number) : Json(nullptr);
}

std::string value_or_nothing(const std::optional<double>& number) {
    return number ? fmt::format("{}", *number) : std::string{};
}

std::pair<std::size_t, std::size_t> row_and_column(const StripReport& report, std::size_t i) {
    const std::size_t columns = report.layout.column_heads.size();
    return {i / columns, i % columns};
}

Json frame_json(const StripReport& report, std::size_t i) {
    const plan::StripFrame& frame = report.strip.frames[i];
    const plan::Face& worst = worst_of(report, i);
    const auto [row, column] = row_and_column(report, i);
    return {{"row", row},
            {"column", column},
            {"f_number", f_number_of(report, i)},
            {"distance_m", place_of(report, i).lens_to_mark_m},
            {"focal_length_mm", place_of(report, i).focal_length_mm},
            {"focus_m", frame.view.focus_m},
            {"worst_face", worst.name},
            {"worst_blur_um", worst.predicted_blur_um},
            {"worst_blur_px", worst.predicted_blur_px},
            {"worst_measured_blur_px", value_or_null(report.made[i].measured_blur_px)},
            {"worst_view_arcmin", value_or_null(worst.view_arcmin)},
            {"grade", optics::to_word(worst.grade)},
            {"worst_face_height_px", worst.face_height_px},
            {"worst_visible_fraction", worst.visible_fraction},
            {"faces_in_frame", frame.faces_in_frame},
            {"background_blur_percent", frame.background_percent},
            {"stops_lost", frame.stops_lost},
            {"samples", report.made[i].samples},
            {"frame_box", box_json(report.layout.cells[i].whole)},
            {"face_box", box_json(report.layout.cells[i].face)}};
}

}  // namespace

StripShape strip_shape(const scene::Scene& scene, const plan::Strip& strip, int width_px) {
    const scene::CameraView& view = strip.frames.front().view;
    const bool places_across = strip.f_numbers.size() == 1;
    const bool some_complaint =
        std::ranges::any_of(strip.frames, [&](const plan::StripFrame& frame) {
            return !complaint_about(frame, scene.people.size()).empty();
        });
    return {.width_px = width_px,
            .columns = places_across ? strip.places.size() : strip.f_numbers.size(),
            .rows = places_across ? 1 : strip.places.size(),
            .height_to_width = static_cast<double>(view.height_px) / view.width_px,
            .notes = some_complaint ? 2 : 1,
            .foot_lines = profile_words(scene, strip).empty() ? 3 : 4};
}

StripSheet strip_sheet_of(StripReport& report) {
    StripSheet sheet{.title = report.scene.title.empty() ? "Strip" : report.scene.title,
                     .below_title = common_words(report)};
    std::vector<StripHead> places;
    for (const plan::StripPlace& place : report.strip.places)
        places.push_back(place_head(report, place));
    if (report.strip.f_numbers.size() == 1) {
        sheet.columns = std::move(places);
    } else {
        sheet.rows = std::move(places);
        for (const double f_number : report.strip.f_numbers)
            sheet.columns.push_back(aperture_head(report, f_number));
    }
    for (std::size_t i = 0; i < report.made.size(); ++i) {
        StripMade& made = report.made[i];
        const plan::StripFrame& frame = report.strip.frames[i];
        const plan::Face& worst = worst_of(report, i);
        const plan::StripPlace& place = place_of(report, i);
        sheet.pictures.push_back(
            {.whole = std::move(made.whole),
             .face = std::move(made.face),
             .face_left = made.face_left,
             .face_top = made.face_top,
             .face_right = made.face_right,
             .face_bottom = made.face_bottom,
             .setting = fmt::format("{}, {}, {}", f_words(f_number_of(report, i)),
                                    distance_words(place.lens_to_mark_m),
                                    lens_words(place.focal_length_mm)),
             .grade = worst.grade,
             .verdict = fmt::format("{} {}, {}", worst.name, optics::to_word(worst.grade),
                                    judged_words(judged(worst), report.scene.viewing)),
             .note = fmt::format("background blur {:.2f} %", frame.background_percent),
             .complaint = complaint_about(frame, report.scene.people.size())});
    }
    sheet.foot = foot_words(report);
    return sheet;
}

std::string strip_text(const StripReport& report) {
    const std::string title = on_one_line(report.scene.title);
    std::string text = title.empty() ? std::string{} : title + '\n';
    text += common_words(report) + "\n\n";
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < report.strip.frames.size(); ++i) {
        const plan::StripFrame& frame = report.strip.frames[i];
        const plan::Face& worst = worst_of(report, i);
        const plan::StripPlace& place = place_of(report, i);
        const auto measured = report.made[i].measured_blur_px;
        const bool now =
            is_now(report, place) && f_number_of(report, i) == report.scene.camera.f_number;
        rows.push_back({fmt::format("{:g}", std::round(place.lens_to_mark_m * 100) / 100),
                        fmt::format("{:g}", std::round(place.focal_length_mm * 10) / 10),
                        f_words(f_number_of(report, i)) + (now ? "*" : ""), on_one_line(worst.name),
                        fmt::format("{:.1f}", worst.predicted_blur_px),
                        measured ? fmt::format("{:.1f}", *measured) : "-",
                        worst.view_arcmin ? fmt::format("{:.1f}", *worst.view_arcmin) : "-",
                        optics::to_word(worst.grade),
                        fmt::format("{:.2f}", frame.background_percent),
                        fmt::format("{}/{}", frame.faces_in_frame, report.scene.people.size()),
                        optics::stops_words(frame.stops_lost)});
    }
    text += text_table({{"distance m"},
                        {"lens mm"},
                        {"aperture"},
                        {"least sharp", Align::left},
                        {"blur px"},
                        {"measured px"},
                        {"arcmin"},
                        {"grade", Align::left},
                        {"background %"},
                        {"framed"},
                        {"light lost"}},
                       rows);
    text += "\n* the present setting.\n" + grades_line(report.scene.viewing);
    const std::string profile = profile_words(report.scene, report.strip);
    return profile.empty() ? text : text + profile + '\n';
}

std::string strip_json(const StripReport& report) {
    Json json{{"title", report.scene.title},
              {"focus", focus_words(report.scene)},
              {"framing_kept", report.framing_kept},
              {"sheet",
               {{"width_px", report.layout.width_px},
                {"height_px", report.layout.height_px},
                {"face_scale", report.face_scale}}},
              {"frames", Json::array()}};
    for (std::size_t i = 0; i < report.strip.frames.size(); ++i)
        json["frames"].push_back(frame_json(report, i));
    constexpr int indent = 2;
    return json.dump(indent, ' ', false, Json::error_handler_t::replace) + '\n';
}

std::string strip_csv(const StripReport& report) {
    std::string csv =
        csv_record({"row", "column", "f_number", "distance_m", "focal_length_mm", "focus_m",
                    "worst_face", "worst_blur_um", "worst_blur_px", "worst_measured_blur_px",
                    "worst_view_arcmin", "grade", "worst_face_height_px", "worst_visible_fraction",
                    "faces_in_frame", "background_blur_percent", "stops_lost", "samples"});
    for (std::size_t i = 0; i < report.strip.frames.size(); ++i) {
        const plan::StripFrame& frame = report.strip.frames[i];
        const plan::Face& worst = worst_of(report, i);
        const auto [row, column] = row_and_column(report, i);
        csv += csv_record(
            {fmt::format("{}", row), fmt::format("{}", column),
             fmt::format("{}", f_number_of(report, i)),
             fmt::format("{}", place_of(report, i).lens_to_mark_m),
             fmt::format("{}", place_of(report, i).focal_length_mm),
             fmt::format("{}", frame.view.focus_m), worst.name,
             fmt::format("{}", worst.predicted_blur_um), fmt::format("{}", worst.predicted_blur_px),
             value_or_nothing(report.made[i].measured_blur_px), value_or_nothing(worst.view_arcmin),
             optics::to_word(worst.grade), fmt::format("{}", worst.face_height_px),
             fmt::format("{}", worst.visible_fraction), fmt::format("{}", frame.faces_in_frame),
             fmt::format("{}", frame.background_percent), fmt::format("{}", frame.stops_lost),
             fmt::format("{}", report.made[i].samples)});
    }
    return csv;
}

}  // namespace backrow::report
