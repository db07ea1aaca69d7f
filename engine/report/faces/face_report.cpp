#include "report/faces/face_report.h"

#include "plan/faces/troubles.h"
#include "plan/faces/verdict.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/lens_words.h"
#include "report/text/trouble_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <cstddef>

namespace backrow::report {
namespace {

// Keys come out in the order in which they are put in.
/// The angle of an endless blur is half a turn, which says nothing; no number is plainer.
std::optional<double> view_arcmin(const plan::Face& face) {
    return std::isfinite(face.predicted_blur_px) ? arcmin_of(face.judged_blur) : std::nullopt;
}

Json camera_json(const scene::Camera& camera) {
    return {{"focal_length_mm", camera.focal_length_mm},
            {"f_number", camera.f_number},
            {"sensor_mm", camera.sensor_mm},
            {"pixels", camera.pixels},
            {"orientation",
             camera.orientation == scene::Orientation::portrait ? "portrait" : "landscape"}};
}

Json focus_json(const plan::FaceTable& table) {
    return {{"distance_m", number_or_null(table.focus_m)},
            {"near_limit_m", number_or_null(table.zone.near_m)},
            {"far_limit_m", number_or_null(table.zone.far_m)},
            {"depth_front_m", number_or_null(table.focus_m - table.zone.near_m)},
            {"depth_back_m", number_or_null(table.zone.far_m - table.focus_m)},
            {"hyperfocal_m", number_or_null(table.hyperfocal_m)}};
}

Json exposure_json(const scene::Camera& camera, const plan::Metering& metering) {
    return {{"shutter_s", camera.shutter_s},
            {"iso", camera.iso},
            {"ev100", metering.ev100},
            {"scene_ev100", metering.scene_ev100},
            {"stops_over", metering.stops_over},
            {"effective_f_number", metering.effective_f_number},
            {"handheld_limit_s", metering.handheld_limit_s},
            {"motion_limit_s", number_or_null(metering.motion_limit_s)}};
}

Json render_json(const RenderFacts& facts) {
    return {{"width_px", facts.width_px},
            {"height_px", facts.height_px},
            {"samples", facts.samples},
            {"stops_shown", number_or_null(facts.stops_shown)},
            {"seconds", number_or_null(facts.seconds)},
            {"light_seconds", number_or_null(facts.light_seconds)},
            {"faces_seconds", number_or_null(facts.faces_seconds)},
            {"driver", facts.driver}};
}

/// Of whoever has one.
std::optional<plan::Sharpness> sharpness_at(const FaceReport& report, std::size_t index) {
    return index < report.sharpness.size() ? report.sharpness[index] : std::nullopt;
}

Json face_json(const FaceReport& report, std::size_t index) {
    const plan::Face& face = report.table.faces[index];
    const std::optional<Rendered>& rendered = report.rendered;
    const auto sharpness = sharpness_at(report, index);
    Json json{{"name", face.name},
              {"eye_m", {face.eye.across_m, face.eye.up_m, face.eye.back_m}},
              {"axial_m", number_or_null(face.axial_m)},
              {"offset_mm", number_or_null(face.offset_mm)},
              {"in_frame", face.cropping.has_whole_head},
              {"predicted_blur_um", number_or_null(face.predicted_blur_um)},
              {"predicted_blur_px", number_or_null(face.predicted_blur_px)},
              {"blur_defocus_px", number_or_null(face.blur_defocus_px)},
              {"blur_lens_px", number_or_null(face.blur_lens_px)}};
    if (rendered)
        json["measured_blur_px"] = number_or_null(rendered->measured_blur_px[index]);
    json["view_arcmin"] = number_or_null(view_arcmin(face));
    json["mtf50_cy_per_px"] = sharpness ? Json(sharpness->mtf50_cy_per_px) : Json(nullptr);
    json["mtf50_cy_per_mm"] = sharpness ? Json(sharpness->mtf50_cy_per_mm) : Json(nullptr);
    json["acutance"] = sharpness ? number_or_null(sharpness->acutance) : Json(nullptr);
    json["visible_fraction"] = number_or_null(face.visible_fraction);
    json["hidden_by"] = hidden_by(face);
    json["cut_at"] = face.cropping.cut_at ? Json(to_word(*face.cropping.cut_at)) : Json(nullptr);
    json["stretch"] = number_or_null(face.stretch);
    json["light"] = words_for(face.light);
    json["face_height_px"] = number_or_null(face.face_height_px);
    json["margin_front_m"] = number_or_null(face.margin.front_m);
    json["margin_back_m"] = number_or_null(face.margin.back_m);
    json["head_near_mm"] = number_or_null(face.head_near_mm);
    json["head_far_mm"] = number_or_null(face.head_far_mm);
    json["whole_head_fine"] = face.whole_head_fine;
    json["grade"] = optics::to_word(face.grade);
    json["verdict"] = to_word(verdict_of(face));
    return json;
}

}  // namespace

FaceReport face_report(const scene::Scene& scene, const scene::CameraView& view,
                       const plan::FaceTable& table, Units units, bool tells_lens) {
    return {.table = table,
            .camera = scene.camera,
            .viewing = scene.viewing,
            .whole_group = plan::mend_framing(scene, plan::troubles_of(table.faces).cut),
            .rendered = std::nullopt,
            .sharpness = plan::sharpness_of_faces(scene, view),
            .tells_lens = tells_lens || scene.lens.profile,
            .lens_note = perfect_lens_sentence(scene),
            .units = units};
}

std::string faces_json(const FaceReport& report) {
    Json json{{"title", report.table.title},
              {"camera", camera_json(report.camera)},
              {"lens_note", report.lens_note ? Json(*report.lens_note) : Json(nullptr)},
              {"focus", focus_json(report.table)},
              {"exposure", exposure_json(report.camera, report.table.metering)}};
    if (report.whole_group)
        json["whole_group"] = whole_group_json(report.whole_group);
    if (report.rendered)
        json["render"] = render_json(report.rendered->facts);
    json["faces"] = Json::array();
    for (std::size_t i = 0; i < report.table.faces.size(); ++i)
        json["faces"].push_back(face_json(report, i));
    return json_text(json);
}

std::string faces_csv(const FaceReport& report) {
    std::vector<std::string> headings{"name",
                                      "across_m",
                                      "up_m",
                                      "back_m",
                                      "axial_m",
                                      "offset_mm",
                                      "in_frame",
                                      "predicted_blur_um",
                                      "predicted_blur_px",
                                      "blur_defocus_px",
                                      "blur_lens_px"};
    if (report.rendered)
        headings.emplace_back("measured_blur_px");
    for (const char* heading :
         {"view_arcmin", "mtf50_cy_per_px", "mtf50_cy_per_mm", "acutance", "visible_fraction",
          "hidden_by", "cut_at", "stretch", "light", "face_height_px", "margin_front_m",
          "margin_back_m", "head_near_mm", "head_far_mm", "whole_head_fine", "grade", "verdict"})
        headings.emplace_back(heading);

    std::string csv = csv_record(headings);
    for (std::size_t i = 0; i < report.table.faces.size(); ++i) {
        const plan::Face& face = report.table.faces[i];
        std::vector<std::string> fields{face.name,
                                        number_field(face.eye.across_m),
                                        number_field(face.eye.up_m),
                                        number_field(face.eye.back_m),
                                        number_field(face.axial_m),
                                        number_field(face.offset_mm),
                                        face.cropping.has_whole_head ? "true" : "false",
                                        number_field(face.predicted_blur_um),
                                        number_field(face.predicted_blur_px),
                                        number_field(face.blur_defocus_px),
                                        number_field(face.blur_lens_px)};
        if (report.rendered)
            fields.push_back(number_field(report.rendered->measured_blur_px[i]));
        fields.push_back(number_field(view_arcmin(face)));
        const plan::Sharpness none{.mtf50_cy_per_px = std::nan(""),
                                   .mtf50_cy_per_mm = std::nan("")};
        const plan::Sharpness sharpness = sharpness_at(report, i).value_or(none);
        fields.push_back(number_field(sharpness.mtf50_cy_per_px));
        fields.push_back(number_field(sharpness.mtf50_cy_per_mm));
        fields.push_back(number_field(sharpness.acutance));
        fields.push_back(number_field(face.visible_fraction));
        fields.push_back(fmt::format("{}", fmt::join(hidden_by(face), "; ")));
        fields.emplace_back(face.cropping.cut_at ? to_word(*face.cropping.cut_at) : "");
        fields.push_back(number_field(face.stretch));
        fields.push_back(fmt::format("{}", fmt::join(words_for(face.light), "; ")));
        fields.push_back(number_field(face.face_height_px));
        fields.push_back(number_field(face.margin.front_m));
        fields.push_back(number_field(face.margin.back_m));
        fields.push_back(number_field(face.head_near_mm));
        fields.push_back(number_field(face.head_far_mm));
        fields.emplace_back(face.whole_head_fine ? "true" : "false");
        fields.emplace_back(optics::to_word(face.grade));
        fields.emplace_back(to_word(verdict_of(face)));
        csv += csv_record(fields);
    }
    return csv;
}

}  // namespace backrow::report
