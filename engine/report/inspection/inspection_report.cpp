#include "report/inspection/inspection_report.h"

#include "report/faces/faces_sheet.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/listed.h"
#include "report/text/text_table.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <optional>
#include <utility>

namespace backrow::report {
namespace {

using inspection::CannotTell;
using inspection::Frame;
using inspection::FrameFace;
using inspection::Inspection;

std::optional<double> blur_px(const FrameFace& face) {
    const double* blur = std::get_if<double>(&face.blur);
    return blur != nullptr ? std::optional{*blur} : std::nullopt;
}

std::string why_not(const FrameFace& face) {
    const CannotTell* why = std::get_if<CannotTell>(&face.blur);
    return why != nullptr ? fmt::format("cannot tell: {}", to_word(*why)) : std::string{};
}

std::string verdict_of(const FrameFace& face) {
    return blur_px(face) ? optics::to_word(face.grade) : why_not(face);
}

std::vector<std::string> row_of(const Frame& frame, const FrameFace& face) {
    const auto blur = blur_px(face);
    const auto arcmin = blur ? arcmin_of(face.judged) : std::nullopt;
    return {on_one_line(frame.image),
            on_one_line(face.person),
            fmt::format("{}", face.head.height_px),
            blur ? fmt::format("{:.1f}", *blur) : "-",
            blur ? fmt::format("{:.1f}–{:.1f}", inspection::range_of(*blur).from_px,
                               inspection::range_of(*blur).to_px)
                 : "-",
            arcmin ? fmt::format("{:.1f}", *arcmin) : "-",
            verdict_of(face)};
}

std::string best_lines(const Inspection& inspection) {
    if (!inspection.best)
        return "Of no face can be told how sharp it is.\n";
    const std::vector<Frame>& frames = inspection.frames;
    std::string text;
    if (frames.size() > 1)
        text += fmt::format("Best frame: {}\n", on_one_line(frames[*inspection.best].image));
    for (const inspection::Swap& swap : inspection.swaps)
        text += fmt::format("Sharper elsewhere: {}, in {}\n", on_one_line(swap.person),
                            on_one_line(frames[swap.frame].image));
    return text;
}

}  // namespace

std::string inspection_text(const InspectionReport& report) {
    std::vector<std::vector<std::string>> rows;
    std::vector<std::string> without;
    for (const Frame& frame : report.inspection.frames) {
        for (const FrameFace& face : frame.faces)
            rows.push_back(row_of(frame, face));
        if (frame.faces.empty())
            without.push_back(on_one_line(frame.image));
    }
    std::string text = text_table({{"image", Align::left},
                                   {"who", Align::left},
                                   {"head px"},
                                   {"blur px"},
                                   {"from–to"},
                                   {"arcmin"},
                                   {"verdict", Align::left}},
                                  rows);
    text += '\n' + best_lines(report.inspection);
    if (!without.empty())
        text += fmt::format("No face found in {}.\n", listed(without));
    return text + fmt::format("Judged for: {}. Blur at eyes and mouth, estimated from how detail "
                              "fades; whether eyes are\nopen, and whether a blur is of focus or of "
                              "movement, is for you to see.\n",
                              report.use);
}

std::string inspection_json(const InspectionReport& report) {
    const Inspection& inspection = report.inspection;
    Json json{{"use", report.use}, {"frames", Json::array()}};
    for (const Frame& frame : inspection.frames) {
        Json faces = Json::array();
        for (const FrameFace& face : frame.faces) {
            const auto blur = blur_px(face);
            const CannotTell* why = std::get_if<CannotTell>(&face.blur);
            faces.push_back(
                {{"name", face.person},
                 {"head", {face.head.left, face.head.top, face.head.width_px, face.head.height_px}},
                 {"blur_px", number_or_null(blur)},
                 {"view_arcmin", number_or_null(blur ? arcmin_of(face.judged) : std::nullopt)},
                 {"grade", blur ? Json(optics::to_word(face.grade)) : Json(nullptr)},
                 {"cannot_tell", why != nullptr ? Json(to_word(*why)) : Json(nullptr)}});
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
    std::string csv = csv_record({"image", "name", "left_px", "top_px", "width_px", "height_px",
                                  "blur_px", "view_arcmin", "grade", "cannot_tell"});
    for (const Frame& frame : report.inspection.frames)
        for (const FrameFace& face : frame.faces) {
            const auto blur = blur_px(face);
            const CannotTell* why = std::get_if<CannotTell>(&face.blur);
            csv += csv_record(
                {frame.image, face.person, fmt::format("{}", face.head.left),
                 fmt::format("{}", face.head.top), fmt::format("{}", face.head.width_px),
                 fmt::format("{}", face.head.height_px), number_field(blur),
                 number_field(blur ? arcmin_of(face.judged) : std::nullopt),
                 blur ? optics::to_word(face.grade) : "", why != nullptr ? to_word(*why) : ""});
        }
    return csv;
}

Image<Rgb8> person_sheet(const std::string& person, const std::vector<FrameCutout>& faces) {
    constexpr std::array<plan::Verdict, 4> verdicts{plan::Verdict::crisp, plan::Verdict::fine,
                                                    plan::Verdict::soft, plan::Verdict::lost};
    std::vector<FacePicture> pictures;
    for (const FrameCutout& cutout : faces) {
        const auto blur = blur_px(cutout.face);
        pictures.push_back({.pixels = cutout.pixels,
                            .name = cutout.image,
                            .predicted_blur_px = std::nullopt,
                            .measured_blur_px = blur,
                            .verdict = verdicts[static_cast<std::size_t>(cutout.face.grade)],
                            .trouble = why_not(cutout.face)});
    }
    return faces_sheet(pictures, person);
}

}  // namespace backrow::report
