#include "report/faces/face_report.h"

#include "plan/faces/worst_face.h"
#include "report/text/exposure_words.h"
#include "report/text/text_table.h"
#include "report/text/viewing_words.h"

#include "optics/payment.h"
#include "optics/stops.h"

#include "base/units.h"
#include "base/utf8.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <string>
#include <vector>

namespace backrow::report {
namespace {

constexpr const char* nothing = "-";

constexpr const char* columns_told =
    "Margin: towards the camera/away from it, still fine. Head: all of it fine from nose to ears, "
    "or the eye alone (part).\n";

std::string finite_or_nothing(double number, int digits) {
    return std::isfinite(number) ? fmt::format("{:.{}f}", number, digits) : nothing;
}

/// With its sign, and no sign on none.
std::string offset(double mm, Units units) {
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
    const double behind_m = table.zone.far_m - table.focus_m;
    return fmt::format("Focus at {}; fine from {} to {}, {} in front and {} behind; hyperfocal "
                       "distance {}\n",
                       metres(table.focus_m), metres(table.zone.near_m), metres(table.zone.far_m),
                       metres(table.focus_m - table.zone.near_m),
                       std::isfinite(behind_m) ? metres(behind_m) : "everything",
                       units == Units::metric ? fmt::format("{:.1f} m", table.hyperfocal_m)
                                              : metres(table.hyperfocal_m));
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

std::string table_of(const FaceReport& report) {
    const bool print = std::holds_alternative<optics::PrintViewing>(report.viewing);
    std::vector<Column> columns{
        {"name", Align::left},
        {fmt::format("axial {}", length_unit(LengthScale::metres, report.units))},
        {fmt::format("offset {}", length_unit(LengthScale::millimetres, report.units))},
        {"blur µm"},
        {"blur px"}};
    if (report.rendered)
        columns.push_back({"measured px"});
    if (print)
        columns.push_back({"arcmin"});
    columns.push_back(
        {fmt::format("margin {}", length_unit(LengthScale::centimetres, report.units))});
    for (const char* heading : {"visible %", "face px", "framed"})
        columns.push_back({heading});
    columns.push_back({"head", Align::left});
    columns.push_back({"grade", Align::left});

    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < report.table.faces.size(); ++i) {
        const plan::Face& face = report.table.faces[i];
        std::vector<std::string> row{
            face.name,
            std::isfinite(face.axial_m)
                ? length_digits(face.axial_m, LengthScale::metres, report.units)
                : nothing,
            offset(face.offset_mm, report.units), finite_or_nothing(face.predicted_blur_um, 1),
            finite_or_nothing(face.predicted_blur_px, 1)};
        if (report.rendered) {
            const auto measured = report.rendered->measured_blur_px[i];
            row.push_back(measured ? finite_or_nothing(*measured, 1) : nothing);
        }
        if (print)
            row.push_back(std::isfinite(face.predicted_blur_px)
                              ? finite_or_nothing(face.judged_blur.amount, 1)
                              : nothing);
        row.push_back(margin(face.margin, report.units));
        row.push_back(fmt::format("{:.0f}", 100 * face.visible_fraction));
        row.push_back(finite_or_nothing(face.face_height_px, 0));
        row.emplace_back(face.in_frame ? "yes" : "no");
        row.emplace_back(head_holds(face));
        row.emplace_back(optics::to_word(face.grade));
        rows.push_back(std::move(row));
    }
    return text_table(columns, rows);
}

/// How many times the fine limit a blur is.
double share_of_fine(const plan::Face& face) {
    return face.judged_blur.amount / limit_of(optics::Grade::fine, face.judged_blur.unit);
}

std::string where_from_focus(double offset_mm, Units units) {
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
    const plan::Face& worst = faces[plan::worst_face(faces)];
    const std::string name = on_one_line(worst.name);
    if (!std::isfinite(worst.predicted_blur_px))
        return fmt::format("Least sharp: {}, who is not in front of the lens.\n", name);
    return fmt::format("Least sharp: {}, {}; {:.1f} px of blur, {:.0f} % of what is still fine, "
                       "{}.\n",
                       name, optics::to_word(worst.grade), worst.predicted_blur_px,
                       100 * share_of_fine(worst), where_from_focus(worst.offset_mm, units));
}

/// Who is cut off is told after the least sharp, who is sought among those who are not.
std::string cut_off_line(const std::vector<plan::Face>& faces) {
    std::vector<std::string> names;
    for (const plan::Face& face : faces)
        if (!face.in_frame)
            names.push_back(on_one_line(face.name));
    return names.empty() ? ""
                         : fmt::format("Not whole in the picture: {}.\n", fmt::join(names, ", "));
}

}  // namespace

std::string faces_text(const FaceReport& report) {
    const std::string title = on_one_line(report.table.title);
    std::string text = title.empty() ? std::string{} : title + '\n';
    text += camera_line(report) + focus_line(report.table, report.units) +
            exposure_lines(report.camera, report.table.metering);
    if (report.rendered)
        text += render_line(report.rendered->facts) + unmeasured_line(report.rendered->facts) +
                brightness_line(report.rendered->facts, report.table.metering.stops_over);
    return text + '\n' + table_of(report) + '\n' + grades_line(report.viewing, report.units) +
           columns_told + worst_line(report.table.faces, report.units) +
           cut_off_line(report.table.faces);
}

}  // namespace backrow::report
