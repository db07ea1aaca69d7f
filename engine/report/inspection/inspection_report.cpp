#include "report/inspection/inspection_report.h"

#include "report/faces/faces_sheet.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/listed.h"
#include "report/text/text_table.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <utility>

namespace backrow::report {
namespace {

using inspection::Blur;
using inspection::CannotTell;
using inspection::Frame;
using inspection::FrameFace;
using inspection::Inspection;

const Blur* blur_of(const FrameFace& face) {
    return std::get_if<Blur>(&face.blur);
}

std::optional<double> blur_px(const FrameFace& face) {
    const Blur* blur = blur_of(face);
    return blur != nullptr ? std::optional{blur->px} : std::nullopt;
}

/// Why there is no verdict; empty where there is one.
std::string why_not(const FrameFace& face) {
    if (const CannotTell* why = std::get_if<CannotTell>(&face.blur))
        return to_word(*why);
    return face.is_graded() ? std::string{}
                            : fmt::format("{} to {}", optics::to_word(face.best_grade),
                                          optics::to_word(face.worst_grade));
}

std::string verdict_of(const FrameFace& face) {
    return face.is_graded() ? optics::to_word(face.grade)
                            : fmt::format("cannot tell: {}", why_not(face));
}

std::string kind_of(const FrameFace& face) {
    return face.kind == inspection::BlurKind::movement
               ? fmt::format("{} {:.0f}°", to_word(face.kind), face.direction_deg)
               : to_word(face.kind);
}

std::string or_dash(const std::string& word) {
    return word.empty() ? "-" : word;
}

/// Of one frame alone nothing is sharper.
std::vector<Column> columns_of(const Inspection& inspection) {
    std::vector<Column> columns{{"image", Align::left},
                                {"who", Align::left},
                                {"head px"},
                                {"blur px"},
                                {"from–to"},
                                {"arcmin"},
                                {"by", Align::left},
                                {"eyes", Align::left}};
    if (inspection.frames.size() > 1)
        columns.push_back({"sharper in"});
    columns.push_back({"verdict", Align::left});
    return columns;
}

std::vector<std::string> row_of(const Inspection& inspection, const Frame& frame,
                                const FrameFace& face) {
    const Blur* blur = blur_of(face);
    const auto arcmin = blur != nullptr ? arcmin_of(face.judged) : std::nullopt;
    std::vector<std::string> row{
        on_one_line(frame.image),
        on_one_line(face.person),
        fmt::format("{}", face.head.height_px),
        blur != nullptr ? fmt::format("{}{:.1f}", blur->is_told() ? "" : "~", blur->px) : "-",
        blur != nullptr ? fmt::format("{:.1f}–{:.1f}", blur->from_px, blur->to_px) : "-",
        arcmin ? fmt::format("{:.1f}", *arcmin) : "-",
        or_dash(kind_of(face)),
        or_dash(to_word(face.eyes))};
    if (inspection.frames.size() > 1)
        row.push_back(face.sharper_in.empty() ? "-" : fmt::format("{}", face.sharper_in.size()));
    row.push_back(verdict_of(face));
    return row;
}

std::string best_lines(const Inspection& inspection) {
    if (!inspection.best)
        return "Of no face can be told how sharp it is.\n";
    const std::vector<Frame>& frames = inspection.frames;
    std::string text;
    if (frames.size() > 1)
        text += fmt::format("Best frame: {}\n", on_one_line(frames[*inspection.best].image));
    for (const inspection::Swap& swap : inspection.swaps)
        text += fmt::format("Better elsewhere: {}, in {}\n", on_one_line(swap.person),
                            on_one_line(frames[swap.frame].image));
    return text;
}

std::vector<std::string> sharper_in(const Inspection& inspection, const FrameFace& face) {
    std::vector<std::string> images;
    for (const std::size_t frame : face.sharper_in)
        images.push_back(inspection.frames[frame].image);
    return images;
}

std::optional<double> told_px(const FrameFace& face) {
    const Blur* blur = blur_of(face);
    return blur != nullptr && blur->is_told() ? std::optional{blur->px} : std::nullopt;
}

/// Eyes on a sheet are at least so wide where they fit, and each pixel of theirs at most so many.
constexpr int eyes_px = 360;
constexpr int most_times = 8;

Image<Rgb8> enlarged(const Image<Rgb8>& picture, int times) {
    Image<Rgb8> larger(picture.width_px() * times, picture.height_px() * times);
    for (int y = 0; y < larger.height_px(); ++y)
        for (int x = 0; x < larger.width_px(); ++x)
            larger.at(x, y) = picture.at(x / times, y / times);
    return larger;
}

/// Without its folders, for there is little room.
std::string name_on_sheet(const std::string& image) {
    return image.substr(image.find_last_of('/') + 1);
}

}  // namespace

std::string inspection_text(const InspectionReport& report) {
    std::vector<std::vector<std::string>> rows;
    std::vector<std::string> without;
    for (const Frame& frame : report.inspection.frames) {
        for (const FrameFace& face : frame.faces)
            rows.push_back(row_of(report.inspection, frame, face));
        if (frame.faces.empty())
            without.push_back(on_one_line(frame.image));
    }
    std::string text = text_table(columns_of(report.inspection), rows);
    text += '\n' + best_lines(report.inspection);
    if (!without.empty())
        text += fmt::format("No face found in {}.\n", listed(without));
    return text +
           fmt::format("Judged for: {}. Blur at eyes and mouth, by comparing frames of the "
                       "same face, and of one alone\nroughly (~), from how its detail fades.\n",
                       report.use);
}

std::string inspection_json(const InspectionReport& report) {
    const Inspection& inspection = report.inspection;
    Json json{{"use", report.use}, {"frames", Json::array()}};
    for (const Frame& frame : inspection.frames) {
        Json faces = Json::array();
        for (const FrameFace& face : frame.faces) {
            const Blur* blur = blur_of(face);
            const std::string why = why_not(face);
            const auto word_or_null = [](const std::string& word) {
                return word.empty() ? Json(nullptr) : Json(word);
            };
            const bool moved = face.kind == inspection::BlurKind::movement;
            faces.push_back(
                {{"name", face.person},
                 {"head", {face.head.left, face.head.top, face.head.width_px, face.head.height_px}},
                 {"blur_px", number_or_null(blur_px(face))},
                 {"blur_from_px",
                  number_or_null(blur ? std::optional{blur->from_px} : std::nullopt)},
                 {"blur_to_px", number_or_null(blur ? std::optional{blur->to_px} : std::nullopt)},
                 {"told", blur != nullptr && blur->is_told()},
                 {"view_arcmin", number_or_null(blur ? arcmin_of(face.judged) : std::nullopt)},
                 {"blurred_by", word_or_null(to_word(face.kind))},
                 {"direction_deg",
                  number_or_null(moved ? std::optional{face.direction_deg} : std::nullopt)},
                 {"eyes", word_or_null(to_word(face.eyes))},
                 {"sharper_in", sharper_in(inspection, face)},
                 {"grade", face.is_graded() ? Json(optics::to_word(face.grade)) : Json(nullptr)},
                 {"cannot_tell", word_or_null(why)}});
        }
        json["frames"].push_back({{"image", frame.image},
                                  {"width_px", frame.width_px},
                                  {"height_px", frame.height_px},
                                  {"faces", std::move(faces)}});
    }
    json["best"] =
        inspection.best ? Json(inspection.frames[*inspection.best].image) : Json(nullptr);
    json["swaps"] = Json::array();
    for (const inspection::Swap& swap : inspection.swaps)
        json["swaps"].push_back(
            {{"name", swap.person}, {"from", inspection.frames[swap.frame].image}});
    return json_text(json);
}

std::string inspection_csv(const InspectionReport& report) {
    std::string csv =
        csv_record({"image", "name", "left_px", "top_px", "width_px", "height_px", "blur_px",
                    "blur_from_px", "blur_to_px", "told", "view_arcmin", "blurred_by",
                    "direction_deg", "eyes", "sharper_in", "grade", "cannot_tell"});
    for (const Frame& frame : report.inspection.frames)
        for (const FrameFace& face : frame.faces) {
            const Blur* blur = blur_of(face);
            const bool moved = face.kind == inspection::BlurKind::movement;
            csv += csv_record(
                {frame.image, face.person, fmt::format("{}", face.head.left),
                 fmt::format("{}", face.head.top), fmt::format("{}", face.head.width_px),
                 fmt::format("{}", face.head.height_px), number_field(blur_px(face)),
                 number_field(blur ? std::optional{blur->from_px} : std::nullopt),
                 number_field(blur ? std::optional{blur->to_px} : std::nullopt),
                 blur != nullptr && blur->is_told() ? "true" : "false",
                 number_field(blur ? arcmin_of(face.judged) : std::nullopt), to_word(face.kind),
                 number_field(moved ? std::optional{face.direction_deg} : std::nullopt),
                 to_word(face.eyes),
                 fmt::format("{}", fmt::join(sharper_in(report.inspection, face), "; ")),
                 face.is_graded() ? optics::to_word(face.grade) : "", why_not(face)});
        }
    return csv;
}

Image<Rgb8> person_sheet(const std::string& person, const std::vector<FrameCutout>& faces) {
    constexpr std::array<plan::Verdict, 4> verdicts{plan::Verdict::crisp, plan::Verdict::fine,
                                                    plan::Verdict::soft, plan::Verdict::lost};
    int widest_px = 1;
    for (const FrameCutout& cutout : faces)
        widest_px = std::max(widest_px, cutout.eyes.width_px());
    const int times = std::clamp((eyes_px + widest_px - 1) / widest_px, 1, most_times);
    std::vector<FacePicture> pictures;
    for (const FrameCutout& cutout : faces) {
        FacePicture picture{.pixels = cutout.pixels,
                            .name = name_on_sheet(cutout.image),
                            .measured_blur_px = told_px(cutout.face),
                            .verdict = std::nullopt,
                            .trouble = verdict_of(cutout.face),
                            .enlarged = {}};
        if (times > 1)
            picture.enlarged = enlarged(cutout.eyes, times);
        if (cutout.face.is_graded())
            picture.verdict = verdicts[static_cast<std::size_t>(cutout.face.grade)];
        if (cutout.face.eyes == inspection::Eyes::shut)
            picture.trouble += ", eyes shut";
        pictures.push_back(std::move(picture));
    }
    const bool is_number = person.find_first_not_of("0123456789") == std::string::npos;
    return faces_sheet(pictures, is_number ? "Person " + person : person,
                       times > 1
                           ? fmt::format("{}; eyes {} times as large", sheet_scale_note, times)
                           : sheet_scale_note);
}

}  // namespace backrow::report
