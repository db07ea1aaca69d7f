#include "report/faces/face_report.h"

#include "plan/faces/verdict.h"
#include "plan/faces/worst_face.h"
#include "report/text/exposure_words.h"
#include "report/text/lens_words.h"
#include "report/text/text_table.h"
#include "report/text/trouble_words.h"
#include "report/text/viewing_words.h"

#include "optics/contrast/diffraction.h"
#include "optics/exposure/payment.h"
#include "optics/exposure/stops.h"

#include "base/units.h"
#include "base/utf8.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <map>
#include <string>
#include <vector>

namespace backrow::report {
namespace {

constexpr const char* nothing = "-";

constexpr const char* columns_told = "× fine: the blur, by what is still fine. Margin: towards the "
                                     "camera/away from it, still fine.\n"
                                     "Head: all of it fine from nose to ears, or the eye alone "
                                     "(part). Cut at: the highest place that "
                                     "the frame cuts.\n";

constexpr const char* lens_columns_told = "Defocus, lens: what another focus would take off the "
                                          "blur, and what the lens leaves; they add as "
                                          "squares.\n"
                                          "MTF50: where half of the contrast is left of detail, "
                                          "after lens, movement and pixels; acutance: how "
                                          "much of it an eye sees.\n";

std::string finite_or_nothing(double number, int digits) {
    return std::isfinite(number) ? fmt::format("{:.{}f}", number, digits) : nothing;
}

/// With its sign, and no sign on none; from a best focus beyond infinity nothing has one.
std::string offset(double mm, Units units) {
    if (!std::isfinite(mm))
        return nothing;
    const std::string digits = length_digits(m_from_mm(mm), LengthScale::millimetres, units);
    if (digits == "0" || digits == "-0")
        return "0";
    return digits.front() == '-' ? digits : '+' + digits;
}

std::string camera_line(const FaceReport& report) {
    const scene::Camera& camera = report.camera;
    const bool upright = camera.orientation == scene::Orientation::portrait;
    return fmt::format("{} mm at f/{}, sensor {} × {} mm, {} × {} pixels, {}\n",
                       camera.focal_length_mm, camera.f_number, camera.sensor_mm[0],
                       camera.sensor_mm[1], camera.pixels[0], camera.pixels[1],
                       upright ? "portrait" : "landscape");
}

std::string focus_line(const plan::FaceTable& table, Units units) {
    const auto metres = [&](double m) { return length_words(m, LengthScale::metres, units); };
    const double behind_m = table.best_zone.far_m - table.best_focus_m;
    return fmt::format("Focus at {}; fine from {} to {}, {} in front and {} behind; hyperfocal "
                       "distance {}\n",
                       metres(table.best_focus_m), metres(table.best_zone.near_m),
                       metres(table.best_zone.far_m),
                       metres(table.best_focus_m - table.best_zone.near_m),
                       std::isfinite(behind_m) ? metres(behind_m) : "everything",
                       units == Units::metric ? fmt::format("{:.1f} m", table.hyperfocal_m)
                                              : metres(table.hyperfocal_m));
}

/// What diffraction takes of the grades, where that is enough to matter, or that it does not count.
std::string diffraction_line(const FaceReport& report) {
    constexpr double worth_telling = 0.5;
    const double blur_mm = report.table.diffraction_mm;
    if (blur_mm == 0)
        return "Judged by the blur alone: diffraction does not count\n";
    if (blur_mm < worth_telling * report.crisp_mm)
        return {};
    const double f_number = report.camera.f_number;
    const double blur_um = um_from_mm(blur_mm);
    if (blur_mm <= report.crisp_mm)
        return fmt::format("Diffraction at f/{} counts as {:.1f} µm of blur, {:.0f} % of what is "
                           "crisp\n",
                           f_number, blur_um, 100 * blur_mm / report.crisp_mm);
    return fmt::format(
        "Diffraction alone at f/{} counts as {:.1f} µm of blur, {:.1f} times what "
        "is {}: no face is {} at any distance\n",
        f_number, blur_um, blur_mm / (blur_mm > report.fine_mm ? report.fine_mm : report.crisp_mm),
        blur_mm > report.fine_mm ? "fine" : "crisp", blur_mm > report.fine_mm ? "fine" : "crisp");
}

std::string render_line(const RenderFacts& facts) {
    return fmt::format("Picture {} × {}, {} lens samples, {:.1f} s\n", facts.width_px,
                       facts.height_px, facts.samples, facts.seconds);
}

/// Why the column is empty; nothing where it is not.
std::string unmeasured_line(const RenderFacts& facts) {
    if (facts.samples >= facts.least_samples_measured)
        return {};
    return fmt::format("Blur not measured: {} of the lens span no opening; --samples {} or more "
                       "measure it\n",
                       facts.samples == 1 ? "1 point" : fmt::format("{} points", facts.samples),
                       facts.least_samples_measured);
}

/// Whether the picture is as bright as the settings make it; nothing where that is the same.
std::string brightness_line(const RenderFacts& facts, double stops_over) {
    constexpr double least_told = 1.0 / 3.0;
    if (!facts.stops_shown || std::abs(stops_over) <= least_told)
        return {};
    const std::string off = fmt::format("{} {}", optics::stops_words(std::abs(stops_over)),
                                        stops_over > 0 ? "over" : "under");
    if (*facts.stops_shown != 0)
        return fmt::format("Shown as set, {}\n", off);
    return fmt::format("Shown as metered, not {} as set; --set camera.exposure=as_set shows that\n",
                       off);
}

/// "8.4/10": towards the camera and away from it.
std::string margin(const plan::Margin& margin, Units units) {
    const auto centimetres = [&](double m) {
        return length_digits(m, LengthScale::centimetres, units);
    };
    const bool is_none = margin.front_m == 0 && margin.back_m == 0;
    return is_none ? nothing : centimetres(margin.front_m) + '/' + centimetres(margin.back_m);
}

/// Whether from the nose to the ears all of the head is fine, or the eye alone.
const char* head_holds(const plan::Face& face) {
    if (face.whole_head_fine)
        return "yes";
    return face.grade == optics::Grade::crisp || face.grade == optics::Grade::fine ? "part" : "no";
}

/// How many times the fine limit a blur is.
double share_of_fine(const plan::Face& face) {
    return face.judged_blur.amount / limit_of(optics::Grade::fine, face.judged_blur.unit);
}

std::string table_of(const FaceReport& report) {
    std::vector<Column> columns{
        {"name", Align::left},
        {fmt::format("axial {}", length_unit(LengthScale::metres, report.units))},
        {fmt::format("offset {}", length_unit(LengthScale::millimetres, report.units))},
        {"blur px"},
        {"× fine"}};
    if (report.rendered)
        columns.insert(columns.end() - 1, {"measured"});
    if (report.tells_lens) {
        columns.insert(columns.end() - 1, {{"defocus"}, {"lens"}});
        columns.insert(columns.end(), {{"MTF50 cy/px"}, {"acutance %"}});
    }
    columns.push_back(
        {fmt::format("margin {}", length_unit(LengthScale::centimetres, report.units))});
    columns.insert(columns.end(), {{"seen %"}, {"head", Align::left}, {"cut at", Align::left}});
    if (report.table.stretch_mend)
        columns.push_back({"stretch %"});
    columns.push_back({"verdict", Align::left});

    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < report.table.faces.size(); ++i) {
        const plan::Face& face = report.table.faces[i];
        std::vector<std::string> row{
            face.name,
            std::isfinite(face.axial_m)
                ? length_digits(face.axial_m, LengthScale::metres, report.units)
                : nothing,
            offset(face.from_best_focus_mm, report.units),
            finite_or_nothing(face.predicted_blur_px, 1)};
        if (report.rendered) {
            const auto measured = report.rendered->measured_blur_px[i];
            row.push_back(measured ? finite_or_nothing(*measured, 1) : nothing);
        }
        if (report.tells_lens) {
            row.push_back(finite_or_nothing(face.blur_defocus_px, 1));
            row.push_back(finite_or_nothing(face.blur_lens_px, 1));
        }
        row.push_back(finite_or_nothing(share_of_fine(face), 2));
        if (report.tells_lens) {
            const auto& sharpness = report.sharpness[i];
            row.push_back(sharpness ? fmt::format("{:.2f}", sharpness->mtf50_cy_per_px) : nothing);
            row.push_back(sharpness && sharpness->acutance
                              ? fmt::format("{:.0f}", 100 * *sharpness->acutance)
                              : nothing);
        }
        row.push_back(margin(face.margin, report.units));
        row.push_back(fmt::format("{:.0f}", 100 * face.visible_fraction));
        row.emplace_back(head_holds(face));
        row.emplace_back(face.cropping.cut_at ? to_word(*face.cropping.cut_at) : nothing);
        if (report.table.stretch_mend)
            row.push_back(finite_or_nothing(100 * (face.stretch - 1), 0));
        row.emplace_back(to_word(verdict_of(face)));
        rows.push_back(std::move(row));
    }
    return text_table(columns, rows);
}

std::string where_from_focus(double offset_mm, Units units) {
    if (!std::isfinite(offset_mm))
        return "in front of the plane of focus";
    if (std::round(offset_mm) == 0)
        return "in the plane of focus";
    return fmt::format(
        "{} {} the plane of focus",
        length_words(m_from_mm(std::abs(offset_mm)), LengthScale::millimetres, units),
        offset_mm < 0 ? "in front of" : "behind");
}

std::string worst_line(const std::vector<plan::Face>& faces, Units units) {
    if (faces.empty())
        return "Nobody is in the scene.\n";
    if (std::ranges::none_of(faces, plan::is_seen))
        return "No face is seen whole: nothing to judge by its sharpness.\n";
    const plan::Face& worst = faces[plan::worst_face(faces)];
    const std::string name = on_one_line(worst.name);
    if (!std::isfinite(worst.predicted_blur_px))
        return fmt::format("Least sharp: {}, who is not in front of the lens.\n", name);
    return fmt::format("Least sharp: {}, {}; {:.1f} px of blur, {:.0f} % of what is still fine, "
                       "{}.\n",
                       name, optics::to_word(worst.grade), worst.predicted_blur_px,
                       100 * share_of_fine(worst),
                       where_from_focus(worst.from_best_focus_mm, units));
}

/// Ahead of any grade: what a photographer sees first, and what would mend the framing.
std::string trouble_lines(const FaceReport& report) {
    std::string lines;
    for (const std::string& sentence : trouble_sentences(report.table.faces))
        lines += sentence + '\n';
    const std::string mend = whole_group_sentence(report.whole_group, report.units);
    return mend.empty() ? lines : lines + mend + '\n';
}

/// Who is stretched most and what mends it.
std::string stretch_line(const FaceReport& report) {
    const auto& mend = report.table.stretch_mend;
    if (!mend)
        return "";
    return fmt::format(
        "The wide angle stretches {} by {:.0f} %; from {} with {:.0f} mm it would be "
        "{:.0f} %, heads as large.\n",
        on_one_line(report.table.faces[mend->person].name), 100 * (mend->stretch - 1),
        length_words(mend->lens_to_mark_m, LengthScale::metres, report.units),
        mend->focal_length_mm, 100 * (plan::seen_stretch - 1));
}

/// Every client zooms in, whatever the picture is made for.
std::string pixel_line(const FaceReport& report) {
    const std::vector<plan::Face>& faces = report.table.faces;
    const double px_per_mm = report.camera.pixels[0] / report.camera.sensor_mm[0];
    const auto crisp = std::ranges::count_if(faces, [&](const plan::Face& face) {
        return is_seen(face) &&
               px_per_mm * optics::with_diffraction_mm(face.predicted_blur_px / px_per_mm,
                                                       report.table.diffraction_mm) <=
                   optics::crisp_limit_px;
    });
    return faces.empty()
               ? ""
               : fmt::format("At 100 %: {} of {} faces crisp pixel by pixel (blur to {} px).\n",
                             crisp, faces.size(), optics::crisp_limit_px);
}

/// One line for each thing that the sun does, with everybody to whom it does it.
std::string light_lines(const std::vector<plan::Face>& faces) {
    std::map<std::string, std::vector<std::string>> who;
    for (const plan::Face& face : faces)
        for (const std::string& words : words_for(face.light))
            who[words].push_back(on_one_line(face.name));
    std::string lines;
    for (const auto& [words, names] : who) {
        const std::string all = names.size() == faces.size()
                                    ? std::string{"everybody"}
                                    : fmt::format("{}", fmt::join(names, ", "));
        lines += fmt::format("{}{}: {}.\n", static_cast<char>(std::toupper(words[0])),
                             words.substr(1), all);
    }
    return lines;
}

}  // namespace

std::string faces_text(const FaceReport& report) {
    const std::string title = on_one_line(report.table.title);
    std::string text = title.empty() ? std::string{} : title + '\n';
    text += camera_line(report) + focus_line(report.table, report.units) +
            diffraction_line(report) + exposure_lines(report.camera, report.table.metering);
    if (report.rendered)
        text += render_line(report.rendered->facts) + unmeasured_line(report.rendered->facts) +
                brightness_line(report.rendered->facts, report.table.metering.stops_over);
    return text + '\n' + table_of(report) + '\n' + grades_line(report.viewing, report.units) +
           columns_told + (report.tells_lens ? lens_columns_told : "") + trouble_lines(report) +
           worst_line(report.table.faces, report.units) + pixel_line(report) +
           stretch_line(report) + light_lines(report.table.faces) +
           perfect_lens_line(report.lens_note);
}

}  // namespace backrow::report
