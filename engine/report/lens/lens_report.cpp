#include "report/lens/lens_report.h"

#include "report/lens/fitted_terms.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/text_table.h"
#include "report/text/viewing_words.h"

#include "base/units.h"
#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

namespace backrow::report {
namespace {

struct Reported {
    double image_height;
    const char* word;      ///< In JSON and columns.
    const char* sentence;  ///< In a sentence.
};
constexpr std::array reported_places{Reported{0.0, "middle", "the middle"},
                                     Reported{0.5, "half", "half way to the corner"},
                                     Reported{1.0, "corner", "the corners"}};

double limit_mm(const LensReport& report, optics::Grade grade) {
    return optics::blur_mm_from_view_arcmin(limit_of(grade, optics::BlurUnit::arcmin),
                                            report.sensor_long_side_mm, report.viewing);
}

std::optional<double> from(const LensReport& report, const Reported& place_of,
                           optics::Grade grade) {
    return good_from(report.figures, place_of.image_height, limit_mm(report, grade));
}

std::string good_sentence(const LensReport& report, optics::Grade grade) {
    std::vector<std::string> parts;
    for (const Reported& place_of : reported_places) {
        const auto f_number = from(report, place_of, grade);
        parts.push_back(f_number ? fmt::format("{} from f/{:g}", place_of.sentence, *f_number)
                                 : fmt::format("{} at none of these openings", place_of.sentence));
    }
    return fmt::format("{}: {}.", grade == optics::Grade::crisp ? "Crisp" : "Fine",
                       fmt::join(parts, ", "));
}

std::string light_sentence(const LensReport& report) {
    const auto lost = [&](std::size_t i) { return report.figures.at(i, 1.0).stops_lost; };
    constexpr double none_stops = 0.05;
    const std::size_t last = report.figures.f_numbers.size() - 1;
    if (lost(0) < none_stops)
        return "The corners are as bright as the middle.";
    std::string words = fmt::format("The corners lose {:.1f} stops of light at f/{:g}", lost(0),
                                    report.figures.f_numbers.front());
    for (std::size_t i = 1; i <= last; ++i)
        if (lost(i) < lost(last) + 0.1)
            return words +
                   fmt::format(" and {:.1f} from f/{:g} on.", lost(i), report.figures.f_numbers[i]);
    return words + '.';
}

// Nearer than this nobody sees where it is sharpest.
constexpr double flat_m = 0.005;

std::string away(double behind_m, Units units) {
    if (std::abs(behind_m) < flat_m)
        return "as near";
    return length_words(std::abs(behind_m), LengthScale::centimetres, units) +
           (behind_m < 0 ? " nearer" : " farther away");
}

std::string field_sentence(const LensReport& report) {
    const optics::FieldFigures& corner = report.figures.field.back();
    const double middle_m = (corner.tangential_m + corner.sagittal_m) / 2;
    const std::string distance =
        length_words(report.figures.distance_m, LengthScale::short_metres, report.units);
    if (std::abs(corner.tangential_m) < flat_m && std::abs(corner.sagittal_m) < flat_m)
        return fmt::format("The field is flat: {} away the corners are sharpest where the middle "
                           "is.",
                           distance);
    std::string words = fmt::format("{} away the corners are sharpest {} than the middle", distance,
                                    away(middle_m, report.units));
    if (std::abs(corner.tangential_m - corner.sagittal_m) > flat_m)
        words += fmt::format("; lines across the radius {}, lines along it {}",
                             away(corner.tangential_m, report.units),
                             away(corner.sagittal_m, report.units));
    return words + '.';
}

std::optional<std::string> offset_sentence(const LensReport& report) {
    const double offset_dpt = report.profile.focus_offset_dpt;
    if (offset_dpt == 0)
        return std::nullopt;
    const double distance_m = report.figures.distance_m;
    const double behind_m = 1 / (1 / distance_m + offset_dpt) - distance_m;
    return fmt::format("The camera focuses it {} than it means to, {} away.",
                       away(behind_m, report.units),
                       length_words(distance_m, LengthScale::short_metres, report.units));
}

std::string both_ways(const optics::PlaceFigures& place) {
    const std::string across = fmt::format("{:.0f}", place.mtf50_tangential_cy_per_mm);
    const std::string along = fmt::format("{:.0f}", place.mtf50_sagittal_cy_per_mm);
    return across == along ? across : across + '/' + along;
}

Json profile_json(const optics::LensProfile& profile) {
    return {{"widest_f_number", profile.widest_f_number},
            {"smallest_f_number",
             profile.smallest_f_number > 0 ? Json(profile.smallest_f_number) : Json(nullptr)},
            {"spherical_dpt", profile.spherical_dpt},
            {"field_curvature_dpt", profile.field_curvature_dpt},
            {"astigmatism_dpt", profile.astigmatism_dpt},
            {"coma_dpt", profile.coma_dpt},
            {"longitudinal_colour_dpt", profile.longitudinal_colour_dpt},
            {"vignetting", profile.vignetting},
            {"natural_falloff", profile.natural_falloff},
            {"focus_offset_dpt", profile.focus_offset_dpt},
            {"blades", profile.blades},
            {"roundness", profile.roundness}};
}

}  // namespace

std::string lens_name(const LensReport& report) {
    return fmt::format("{}, {:g} mm f/{:g}",
                       report.title.empty() ? "A lens" : on_one_line(report.title),
                       report.focal_length_mm, report.figures.f_numbers.front());
}

std::vector<std::string> lens_sentences(const LensReport& report) {
    std::vector<std::string> all{good_sentence(report, optics::Grade::crisp),
                                 good_sentence(report, optics::Grade::fine), light_sentence(report),
                                 field_sentence(report)};
    if (auto offset = offset_sentence(report))
        all.push_back(std::move(*offset));
    if (!optics::has_errors(report.profile))
        all.emplace_back("No errors of it are known: it is shown as sharp as diffraction lets it, "
                         "which few fast lenses are.");
    if (report.fit)
        all.push_back(fmt::format("Its errors in dioptres, fitted from what was measured, "
                                  "± two standard errors: {}.",
                                  terms_in_words(report.fit->terms)));
    return all;
}

std::string lens_text(const LensReport& report) {
    const optics::LensFigures& figures = report.figures;
    std::string text = lens_name(report) + '\n';
    for (const std::string& line : {report.origin, report.date})
        if (!line.empty())
            text += on_one_line(line) + '\n';
    text +=
        fmt::format("A flat chart {} away, focused in its middle at each opening; judged {}\n\n",
                    length_words(figures.distance_m, LengthScale::short_metres, report.units),
                    viewing_words(report.viewing, report.units));

    std::vector<Column> columns{{"aperture", Align::left}};
    for (const char* what : {"lp/mm", "µm"})
        for (const Reported& place_of : reported_places)
            columns.push_back({fmt::format("{} {}", what, place_of.word)});
    columns.push_back({"stops corner"});
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < figures.f_numbers.size(); ++i) {
        std::vector<std::string> row{fmt::format("f/{:g}", figures.f_numbers[i])};
        const auto add = [&](const auto& words) {
            for (const Reported& place_of : reported_places)
                row.push_back(words(figures.at(i, place_of.image_height)));
        };
        add(both_ways);
        add([](const auto& place) { return fmt::format("{:.0f}", um_from_mm(place.blur_mm)); });
        row.push_back(fmt::format("{:.1f}", figures.at(i, 1.0).stops_lost));
        rows.push_back(std::move(row));
    }
    text += text_table(columns, rows);
    text +=
        "\nlp/mm: line pairs a millimetre of which half the contrast is left (MTF50), of lines\n"
        "across the radius / along it, diffraction counted. µm: blur of the lens alone, without\n"
        "diffraction. In the middle, half way to the corner, and there; stops of light lost.\n\n";
    for (const std::string& sentence : lens_sentences(report))
        text += sentence + '\n';
    return text;
}

std::string lens_json(const LensReport& report) {
    const optics::LensFigures& figures = report.figures;
    Json openings = Json::array();
    for (std::size_t i = 0; i < figures.f_numbers.size(); ++i) {
        Json places = Json::array();
        for (std::size_t k = 0; k < figures.image_heights.size(); ++k) {
            const optics::PlaceFigures& place = figures.places[i][k];
            places.push_back({{"image_height", figures.image_heights[k]},
                              {"mtf50_tangential_cy_per_mm", place.mtf50_tangential_cy_per_mm},
                              {"mtf50_sagittal_cy_per_mm", place.mtf50_sagittal_cy_per_mm},
                              {"blur_um", um_from_mm(place.blur_mm)},
                              {"stops_lost", place.stops_lost}});
        }
        openings.push_back({{"f_number", figures.f_numbers[i]}, {"places", std::move(places)}});
    }
    Json field = Json::array();
    for (const optics::FieldFigures& at : figures.field)
        field.push_back({{"image_height", at.image_height},
                         {"tangential_m", number_or_null(at.tangential_m)},
                         {"sagittal_m", number_or_null(at.sagittal_m)}});
    Json good = Json::array();
    for (const Reported& place_of : reported_places)
        good.push_back(
            {{"place", place_of.word},
             {"image_height", place_of.image_height},
             {"crisp_from", number_or_null(from(report, place_of, optics::Grade::crisp))},
             {"fine_from", number_or_null(from(report, place_of, optics::Grade::fine))}});
    return json_text({{"title", report.title},
                      {"origin", report.origin},
                      {"date", report.date},
                      {"focal_length_mm", report.focal_length_mm},
                      {"profile", profile_json(report.profile)},
                      {"fitted", report.fit ? terms_json(report.fit->terms) : Json(nullptr)},
                      {"distance_m", figures.distance_m},
                      {"openings", std::move(openings)},
                      {"field", std::move(field)},
                      {"good", std::move(good)}});
}

std::string lens_csv(const LensReport& report) {
    const optics::LensFigures& figures = report.figures;
    std::string text = csv_record({"f_number", "image_height", "mtf50_tangential_cy_per_mm",
                                   "mtf50_sagittal_cy_per_mm", "blur_um", "stops_lost"});
    for (std::size_t i = 0; i < figures.f_numbers.size(); ++i)
        for (std::size_t k = 0; k < figures.image_heights.size(); ++k) {
            const optics::PlaceFigures& place = figures.places[i][k];
            text += csv_record(
                {number_field(figures.f_numbers[i]), number_field(figures.image_heights[k]),
                 number_field(place.mtf50_tangential_cy_per_mm),
                 number_field(place.mtf50_sagittal_cy_per_mm),
                 number_field(um_from_mm(place.blur_mm)), number_field(place.stops_lost)});
        }
    return text;
}

}  // namespace backrow::report
