#include "report/strip/strip_contents.h"

#include "report/text/exposure_words.h"
#include "report/text/trouble_words.h"
#include "report/text/viewing_words.h"
#include "report/tradeoff/tradeoff_words.h"

#include "optics/exposure/stops.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

namespace backrow::report {
namespace {

/// What suits the light at this aperture from every place: the shortest shutter of all.
optics::ExposureSetting column_exposure(const plan::Strip& strip, std::size_t aperture) {
    optics::ExposureSetting shortest = strip.frame(0, aperture).exposure;
    for (std::size_t place = 1; place < strip.places.size(); ++place)
        if (strip.frame(place, aperture).exposure.shutter_s < shortest.shutter_s)
            shortest = strip.frame(place, aperture).exposure;
    return shortest;
}

StripHead aperture_head(const StripReport& report, std::size_t aperture) {
    const scene::Camera& camera = report.subject.scene.camera;
    const plan::Strip& strip = report.subject.strip;
    const optics::ExposureSetting right = column_exposure(strip, aperture);
    const double stops = strip.frame(0, aperture).stops_lost;
    std::string note = stops == 0 ? "as the scene has it"
                                  : fmt::format("{} {}", optics::stops_words(std::abs(stops)),
                                                stops > 0 ? "lost" : "gained");
    if (right != plan::exposure_setting(camera))
        note += (stops == 0 ? ", but " : ": ") + setting_words(right);
    return {.title = f_words(strip.f_numbers[aperture]), .note = std::move(note)};
}

StripHead place_head(const StripReport& report, const plan::StripPlace& place) {
    const std::string distance = distance_words(place.lens_to_mark_m, report.subject.units);
    const std::string lens = lens_words(place.focal_length_mm);
    return report.subject.places_by == PlacesBy::distance
               ? StripHead{.title = distance, .note = lens}
               : StripHead{.title = lens, .note = distance};
}

std::vector<std::string> foot_words(const StripReport& report) {
    constexpr double percent = 100;
    std::string grades = grades_line(report.subject.scene.viewing, report.subject.units);
    grades.pop_back();
    std::vector<std::string> words{
        fmt::format("{} each frame its least sharp face, outlined there, at {:.0f} % of the "
                    "camera's pixels; the same scale for all.",
                    report.layout.faces_beside ? "Beside" : "Under", percent * report.face_scale),
        grades,
        "Blur of the background: the disc of a point of light there, against the height of the "
        "picture."};
    if (std::string profile = profile_words(report.subject.scene, report.subject.strip);
        !profile.empty())
        words.push_back(std::move(profile));
    return words;
}

}  // namespace

StripShape strip_shape(const scene::Scene& scene, const plan::Strip& strip, int width_px) {
    const scene::CameraView& view = strip.frames.front().view;
    const bool places_across = strip.f_numbers.size() == 1;
    const bool some_complaint =
        std::ranges::any_of(strip.frames, [&](const plan::StripFrame& frame) {
            return !short_trouble_words(frame.faces).empty();
        });
    return {.width_px = width_px,
            .columns = places_across ? strip.places.size() : strip.f_numbers.size(),
            .rows = places_across ? 1 : strip.places.size(),
            .height_to_width = static_cast<double>(view.height_px) / view.width_px,
            .notes = some_complaint ? 2 : 1,
            .foot_lines = profile_words(scene, strip).empty() ? 3 : 4};
}

StripSheet strip_sheet_of(StripReport& report) {
    StripSheet sheet{.title =
                         report.subject.scene.title.empty() ? "Strip" : report.subject.scene.title,
                     .below_title = strip_common_words(report.subject)};
    std::vector<StripHead> places;
    for (const plan::StripPlace& place : report.subject.strip.places)
        places.push_back(place_head(report, place));
    if (report.subject.strip.f_numbers.size() == 1) {
        sheet.columns = std::move(places);
    } else {
        sheet.rows = std::move(places);
        for (std::size_t i = 0; i < report.subject.strip.f_numbers.size(); ++i)
            sheet.columns.push_back(aperture_head(report, i));
    }
    for (std::size_t i = 0; i < report.made.size(); ++i) {
        StripMade& made = report.made[i];
        const plan::StripFrame& frame = report.subject.strip.frames[i];
        const plan::Face& worst = worst_of(report.subject, i);
        const plan::StripPlace& place = place_of(report.subject, i);
        sheet.pictures.push_back(
            {.whole = std::move(made.whole),
             .face = std::move(made.face),
             .face_left = made.face_left,
             .face_top = made.face_top,
             .face_right = made.face_right,
             .face_bottom = made.face_bottom,
             .setting = fmt::format("{}, {}, {}", f_words(f_number_of(report.subject, i)),
                                    distance_words(place.lens_to_mark_m, report.subject.units),
                                    lens_words(place.focal_length_mm)),
             .mark = verdict_of(worst),
             .verdict = fmt::format("{} {}, {}", worst.name, optics::to_word(worst.grade),
                                    judged_words(worst.judged_blur)),
             .note = fmt::format("background blur {:.2f} %", frame.background_percent),
             .complaint = short_trouble_words(frame.faces)});
    }
    sheet.foot = foot_words(report);
    return sheet;
}

}  // namespace backrow::report
