#include "report/faces/face_report.h"

#include "../scene/fifty.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <sstream>

using namespace backrow;
using namespace backrow::report;
using nlohmann::json;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

plan::Face odile() {
    return {.name = "Odile",
            .eye = {.across_m = -0.55, .up_m = 1.58, .back_m = 0.04},
            .axial_m = 4.41,
            .offset_mm = 0,
            .cropping = {.cut_at = std::nullopt, .has_whole_head = true},
            .predicted_blur_um = 0,
            .predicted_blur_px = 0,
            .judged_blur = {},
            .visible_fraction = 0.97,
            .face_height_px = 410,
            .margin = {.front_m = 0.084, .back_m = 0.125},
            .head_near_mm = -24.5,
            .head_far_mm = 92,
            .whole_head_fine = true,
            .grade = optics::Grade::crisp};
}

plan::Face zoe() {
    return {.name = "Zo\u00eb, \"Z\"",
            .eye = {.across_m = 0.4, .up_m = 1.7, .back_m = 0.35},
            .axial_m = 4.71,
            .offset_mm = 300.4,
            .cropping = {},
            .predicted_blur_um = 64.20,
            .predicted_blur_px = 10.7,
            .blur_defocus_px = 8.1,
            .blur_lens_px = 7,
            .judged_blur = {4.4, optics::BlurUnit::arcmin},
            .visible_fraction = 0.5,
            .face_height_px = 380.4,
            .margin = {},
            .head_near_mm = 276,
            .head_far_mm = 392.5,
            .whole_head_fine = false,
            .grade = optics::Grade::soft};
}

FaceReport predicted() {
    return {.table = {.title = "Harbour choir",
                      .focus_m = 4.41,
                      .zone = {4.33, 4.49},
                      .hyperfocal_m = 54.3,
                      .metering = {.ev100 = 8.5,
                                   .scene_ev100 = 12,
                                   .stops_over = 3.5,
                                   .effective_f_number = 1.214,
                                   .handheld_limit_s = 0.02,
                                   .motion_limit_s = 0.15},
                      .faces = {odile(), zoe()}},
            .camera = scene::fifty_wide_open(),
            .viewing = optics::album_viewing,
            .rendered = std::nullopt,
            .sharpness = {
                std::nullopt,
                plan::Sharpness{.mtf50_cy_per_px = 0.21, .mtf50_cy_per_mm = 35, .acutance = 0.8}}};
}

FaceReport rendered() {
    FaceReport report = predicted();
    report.rendered = Rendered{.facts = {.width_px = 1920,
                                         .height_px = 1280,
                                         .samples = 256,
                                         .seconds = 2.1,
                                         .light_seconds = 0.7,
                                         .faces_seconds = 0.3,
                                         .driver = "soft"},
                               .measured_blur_px = {0.1, std::nullopt}};
    return report;
}

std::vector<std::string> keys_of(const json& object) {
    std::vector<std::string> keys;
    for (const auto& item : object.items())
        keys.push_back(item.key());
    return keys;
}

std::vector<std::string> sorted(std::vector<std::string> words) {
    std::ranges::sort(words);
    return words;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("the JSON of a prediction has its keys and no others", "[report][property]") {
    const json read = json::parse(faces_json(predicted()));
    CHECK(keys_of(read) == sorted({"title", "camera", "lens_note", "focus", "exposure", "faces"}));
    CHECK(keys_of(read["camera"]) ==
          sorted({"focal_length_mm", "f_number", "sensor_mm", "pixels", "orientation"}));
    CHECK(keys_of(read["focus"]) == sorted({"distance_m", "near_limit_m", "far_limit_m",
                                            "depth_front_m", "depth_back_m", "hyperfocal_m"}));
    CHECK(keys_of(read["exposure"]) ==
          sorted({"shutter_s", "iso", "ev100", "scene_ev100", "stops_over", "effective_f_number",
                  "handheld_limit_s", "motion_limit_s"}));
    REQUIRE(read["faces"].size() == 2);
    for (const json& face : read["faces"])
        CHECK(keys_of(face) == sorted({"name",
                                       "eye_m",
                                       "axial_m",
                                       "offset_mm",
                                       "in_frame",
                                       "predicted_blur_um",
                                       "predicted_blur_px",
                                       "blur_defocus_px",
                                       "blur_lens_px",
                                       "view_arcmin",
                                       "mtf50_cy_per_px",
                                       "mtf50_cy_per_mm",
                                       "acutance",
                                       "visible_fraction",
                                       "hidden_by",
                                       "cut_at",
                                       "stretch",
                                       "light",
                                       "face_height_px",
                                       "margin_front_m",
                                       "margin_back_m",
                                       "head_near_mm",
                                       "head_far_mm",
                                       "whole_head_fine",
                                       "grade",
                                       "verdict"}));
}

// 4.36 m are 14 ft 3.7 in; the example's numbers stand at the head of this file.
TEST_CASE("the text can be in feet and inches, while JSON and CSV stay metric",
          "[report][property]") {
    FaceReport report = rendered();
    const std::string json_before = faces_json(report);
    const std::string csv_before = faces_csv(report);
    report.units = Units::imperial;
    CHECK(faces_json(report) == json_before);
    CHECK(faces_csv(report) == csv_before);
    const std::string text = faces_text(report);
    CHECK(says(text, "14'6\""));
    for (const char* metric : {" cm", " m ", " mm before", " mm behind"})
        CHECK_FALSE(says(text, metric));
    CHECK(says(text, "in long and seen from 16 in"));
}

TEST_CASE("a picture of too few points of the lens says why no blur is measured",
          "[report][property]") {
    FaceReport report = rendered();
    CHECK_FALSE(says(faces_text(report), "not measured"));
    report.rendered->facts.samples = 2;
    report.rendered->facts.least_samples_measured = 3;
    CHECK(says(faces_text(report), "\nBlur not measured: 2 points of the lens span no opening; "
                                   "--samples 3 or more measure it\n"));
    report.rendered->facts.samples = 3;
    CHECK_FALSE(says(faces_text(report), "not measured"));
}

// The example is 3½ stops over; a third of a stop either way is nothing to speak of.
TEST_CASE("a picture says whether it is as bright as the settings make it", "[report][property]") {
    FaceReport report = rendered();
    CHECK(says(faces_text(report), "\nShown as metered, not 3½ stops over as set; --set "
                                   "camera.exposure=as_set shows that\n"));
    report.rendered->facts.stops_shown = 3.5;
    CHECK(says(faces_text(report), "\nShown as set, 3½ stops over\n"));
    CHECK(json::parse(faces_json(report))["render"]["stops_shown"] == 3.5);
    report.rendered->facts.stops_shown = std::nullopt;
    CHECK_FALSE(says(faces_text(report), "Shown"));
    CHECK(json::parse(faces_json(report))["render"]["stops_shown"].is_null());
    report.rendered->facts.stops_shown = 0.0;
    for (const double close : {0.3, -0.3, 0.0}) {
        report.table.metering.stops_over = close;
        CHECK_FALSE(says(faces_text(report), "Shown"));
    }
    CHECK_FALSE(says(faces_text(predicted()), "Shown"));
}

TEST_CASE("the JSON of a picture adds how it was made and what was measured",
          "[report][property]") {
    const json read = json::parse(faces_json(rendered()));
    CHECK(keys_of(read) ==
          sorted({"title", "camera", "lens_note", "focus", "exposure", "render", "faces"}));
    CHECK(
        read["render"] ==
        json::parse(
            R"({"width_px":1920,"height_px":1280,"samples":256,"stops_shown":0,"seconds":2.1,"light_seconds":0.7,"faces_seconds":0.3,"driver":"soft"})"));
    CHECK(read["faces"][0]["measured_blur_px"] == 0.1);
    CHECK(read["faces"][1]["measured_blur_px"].is_null());
}

TEST_CASE("the JSON holds what the table holds", "[report][property]") {
    const json read = json::parse(faces_json(predicted()));
    CHECK(read["title"] == "Harbour choir");
    CHECK(read["camera"]["focal_length_mm"] == 50.0);
    CHECK(read["camera"]["f_number"] == 1.2);
    CHECK(read["camera"]["sensor_mm"] == json::array({36.0, 24.0}));
    CHECK(read["camera"]["pixels"] == json::array({6000, 4000}));
    CHECK(read["camera"]["orientation"] == "landscape");
    CHECK(read["focus"]["distance_m"] == 4.41);
    CHECK(read["focus"]["near_limit_m"] == 4.33);
    CHECK(read["focus"]["far_limit_m"] == 4.49);
    CHECK(read["focus"]["depth_front_m"].get<double>() == Approx(0.08));
    CHECK(read["focus"]["depth_back_m"].get<double>() == Approx(0.08));
    CHECK(read["focus"]["hyperfocal_m"] == 54.3);
    CHECK(read["exposure"] ==
          json::parse(R"({"shutter_s":0.004,"iso":100.0,"ev100":8.5,"scene_ev100":12.0,
                          "stops_over":3.5,"effective_f_number":1.214,"handheld_limit_s":0.02,
                          "motion_limit_s":0.15})"));
    CHECK(read["faces"][0]["margin_front_m"] == 0.084);
    CHECK(read["faces"][0]["margin_back_m"] == 0.125);
    CHECK(read["faces"][0]["head_near_mm"] == -24.5);
    CHECK(read["faces"][0]["head_far_mm"] == 92);
    CHECK(read["faces"][0]["whole_head_fine"] == true);
    const json& face = read["faces"][1];
    CHECK(face["margin_back_m"] == 0);
    CHECK(face["whole_head_fine"] == false);
    CHECK(face["name"] == "Zo\u00eb, \"Z\"");
    CHECK(face["eye_m"] == json::array({0.4, 1.7, 0.35}));
    CHECK(face["axial_m"] == 4.71);
    CHECK(face["blur_defocus_px"] == 8.1);
    CHECK(face["blur_lens_px"] == 7);
    CHECK(face["mtf50_cy_per_px"] == 0.21);
    CHECK(face["mtf50_cy_per_mm"] == 35);
    CHECK(face["acutance"] == 0.8);
    CHECK(read["faces"][0]["mtf50_cy_per_px"].is_null());
    CHECK(read["lens_note"].is_null());
    CHECK(face["offset_mm"] == 300.4);
    CHECK(face["in_frame"] == false);
    CHECK(face["predicted_blur_um"] == 64.20);
    CHECK(face["predicted_blur_px"] == 10.7);
    CHECK(face["view_arcmin"] == 4.4);
    CHECK(face["visible_fraction"] == 0.5);
    CHECK(face["face_height_px"] == 380.4);
    CHECK(face["grade"] == "soft");
}

TEST_CASE("what has no number is null, never a word that JSON does not know",
          "[report][property]") {
    FaceReport report = predicted();
    report.table.zone.far_m = infinity;
    report.table.metering.motion_limit_s = infinity;
    report.table.faces[0].judged_blur.unit = optics::BlurUnit::px;
    report.table.faces[0].margin.back_m = infinity;
    report.table.faces[1].axial_m = -0.5;
    report.table.faces[1].predicted_blur_um = infinity;
    report.table.faces[1].predicted_blur_px = infinity;
    report.table.faces[1].judged_blur.amount = 10800;
    const json read = json::parse(faces_json(report));
    CHECK(read["focus"]["far_limit_m"].is_null());
    CHECK(read["focus"]["depth_back_m"].is_null());
    CHECK(read["exposure"]["motion_limit_s"].is_null());
    CHECK(read["faces"][0]["margin_back_m"].is_null());
    CHECK(read["faces"][0]["view_arcmin"].is_null());
    CHECK(read["faces"][1]["predicted_blur_um"].is_null());
    CHECK(read["faces"][1]["predicted_blur_px"].is_null());
    CHECK(read["faces"][1]["view_arcmin"].is_null());

    const std::string csv = faces_csv(report);
    CHECK_FALSE(says(csv, "inf"));
    CHECK_FALSE(says(csv, "nan"));
    CHECK_FALSE(says(faces_text(report), "nan"));
}

TEST_CASE("with a lens's faults the text tells them apart from the focus", "[report][property]") {
    FaceReport report = predicted();
    CHECK_FALSE(says(faces_text(report), "defocus"));
    report.tells_lens = true;
    const std::string text = faces_text(report);
    for (const char* told :
         {"defocus", "lens", "MTF50", "acutance", " 8.1 ", " 7.0 ", " 0.21 ", " 80 "})
        CHECK(says(text, told));
}

TEST_CASE("a verdict wider than f/2 says that it rests on a perfect lens", "[report][property]") {
    scene::Scene scene;
    scene.people.emplace_back().name = "Ada";
    scene.focus = scene::FocusAtDistance{6};
    const auto note = [&](double f_number) {
        scene.camera.f_number = f_number;
        const auto view = camera_view(scene);
        return face_report(scene, view, plan::face_table(scene, view), Units::metric).lens_note;
    };
    REQUIRE(note(1.4));
    CHECK(*note(1.4) == "Reckoned with a perfect lens; few are so at f/1.4: try --set "
                        "lens.profile=typical-fast-prime");
    CHECK_FALSE(note(2.0));
    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.4, .spherical_dpt = 0.02};
    CHECK_FALSE(note(1.4));
    FaceReport report = predicted();
    report.lens_note = "Reckoned so";
    CHECK(says(faces_text(report), "\nReckoned so\n"));
}

TEST_CASE("a portrait frame says so and keeps the sensor as written", "[report][property]") {
    FaceReport report = predicted();
    report.camera.orientation = scene::Orientation::portrait;
    const json read = json::parse(faces_json(report));
    CHECK(read["camera"]["orientation"] == "portrait");
    CHECK(read["camera"]["pixels"] == json::array({6000, 4000}));
}

TEST_CASE("the CSV has a heading and a record for every face", "[report][property]") {
    CHECK(faces_csv(predicted()) ==
          "name,across_m,up_m,back_m,axial_m,offset_mm,in_frame,predicted_blur_um,"
          "predicted_blur_px,blur_defocus_px,blur_lens_px,view_arcmin,mtf50_cy_per_px,"
          "mtf50_cy_per_mm,acutance,visible_fraction,hidden_by,cut_at,stretch,light,face_height_px,"
          "margin_front_m,margin_back_m,head_near_mm,head_far_mm,whole_head_fine,grade,"
          "verdict\r\n"
          "Odile,-0.55,1.58,0.04,4.41,0,true,0,0,0,0,0,,,,0.97,,,1,,410,0.084,0.125,-24.5,92,true,"
          "crisp,"
          "crisp\r\n"
          "\"Zo\u00eb, "
          "\"\"Z\"\"\",0.4,1.7,0.35,4.71,300.4,false,64.2,10.7,8.1,7,4.4,0.21,35,0.8,0.5,,,1,,380."
          "4,0,0,276,392.5,"
          "false,soft,cut off\r\n");
    CHECK(
        says(faces_csv(rendered()), ",blur_lens_px,measured_blur_px,view_arcmin,mtf50_cy_per_px,"));
    CHECK(says(faces_csv(rendered()), ",0,0.1,0,,,,0.97,,,1,,410,"));
    CHECK(says(faces_csv(rendered()), ",10.7,8.1,7,,4.4,0.21,35,0.8,0.5,,,1,,380.4,"));
}

TEST_CASE("the text names units, focus, zone, grades and the worst face", "[report][property]") {
    const std::string text = faces_text(predicted());
    const auto lines = lines_of(text);
    CHECK(lines.front() == "Harbour choir");
    CHECK(says(text, "50 mm at f/1.2, sensor 36 \u00d7 24 mm, 6000 \u00d7 4000 pixels, landscape"));
    CHECK(says(text, "Focus at 4.41 m; fine from 4.33 m to 4.49 m"));
    CHECK(says(text, "0.08 m in front and 0.08 m behind; hyperfocal distance 54.3 m"));
    CHECK(says(text, "axial"));
    CHECK(says(text, "\u00d7 fine"));
    CHECK(says(text, "in an album"));
    CHECK(says(text, "fine to 2.75"));
    CHECK_FALSE(says(text, "measured"));
    CHECK(says(text,
               "\nLeast sharp: Odile, crisp; 0.0 px of blur, 0 % of what is still fine, in the "
               "plane of focus.\n"));
    CHECK(says(text, "\nHead not whole in the picture: Zo\u00eb, \"Z\".\n"));
    CHECK(lines.back() == "At 100 %: 1 of 2 faces crisp pixel by pixel (blur to 1.5 px).");
    FaceReport both_whole = predicted();
    both_whole.table.faces[1].cropping.has_whole_head = true;
    CHECK(says(faces_text(both_whole),
               "\nLeast sharp: Zo\u00eb, \"Z\", soft; 10.7 px of blur, 160 % of what is still "
               "fine, 300 mm behind the plane of focus.\n"));
}

TEST_CASE("the text of a picture tells what was measured", "[report][property]") {
    const std::string text = faces_text(rendered());
    CHECK(says(text, "measured"));
    CHECK(says(text, "Picture 1920 \u00d7 1280, 256 lens samples, 2.1 s"));
}

TEST_CASE("pixel by pixel there is no angle in the text", "[report][property]") {
    FaceReport report = predicted();
    report.viewing = scene::PixelViewing{};
    for (plan::Face& face : report.table.faces) {
        face.judged_blur = {face.predicted_blur_px, optics::BlurUnit::px};
        face.cropping.has_whole_head = true;
    }
    const std::string text = faces_text(report);
    CHECK_FALSE(says(text, "arcmin"));
    CHECK(says(text, "Viewed pixel by pixel: crisp to 1.5 px, fine to 3.0, soft to 8.7"));
    // 10.7 px of the 3 px that are still fine.
    CHECK(says(text, "357 % of what is still fine"));
}

TEST_CASE("faces stand in the order of the scene, the far limit may be infinity",
          "[report][property]") {
    FaceReport report = predicted();
    std::ranges::reverse(report.table.faces);
    report.table.zone.far_m = infinity;
    const std::string text = faces_text(report);
    CHECK(text.find("Zo\u00eb") < text.find("Odile"));
    CHECK(says(text, "fine from 4.33 m to infinity"));
    const json read = json::parse(faces_json(report));
    CHECK(read["faces"][1]["name"] == "Odile");
}

TEST_CASE("somebody behind the lens is the worst, in words", "[report][property]") {
    FaceReport report = predicted();
    report.table.faces[0].axial_m = -1;
    report.table.faces[0].predicted_blur_px = infinity;
    report.table.faces[0].predicted_blur_um = infinity;
    CHECK(says(faces_text(report), "\nLeast sharp: Odile, who is not in front of the lens.\n"));
}

// 3½ stops from 1/250 s are 1/2828 s, nearest 1/2500; from ISO 100 they would be ISO 9, which no
// camera has, nor 1/32000 s for 7 stops. 16 stops the other way are 0.004·65536 = 262 s.
TEST_CASE("the text holds the exposure against the light", "[report][property]") {
    FaceReport report = predicted();
    const auto text = [&] { return faces_text(report); };
    CHECK(says(text(),
               "Exposure 1/250 s, ISO 100, effective f-number 1.21: 3½ stops over for EV 12; "
               "right at 1/2500 s\n"));
    CHECK(says(text(), "Slowest shutter: 1/50 s by hand, 1/8 s for people to hold still\n"));
    report.table.metering.stops_over = -2;
    CHECK(says(text(), ": 2 stops under for EV 12; right at 1/60 s or ISO 400\n"));
    report.table.metering.stops_over = 7;
    CHECK(says(text(), ": 7 stops over for EV 12; too bright for shutter or ISO alone\n"));
    report.table.metering.stops_over = -16;
    CHECK(says(text(), ": 16 stops under for EV 12; right at 262 s\n"));
    report.table.metering.stops_over = 0.1;
    CHECK(says(text(), ": right for EV 12\n"));
    report.table.metering.motion_limit_s = infinity;
    CHECK(says(text(), "by hand, any for people to hold still\n"));
}

TEST_CASE("the text tells margin in centimetres and how much of the head holds",
          "[report][property]") {
    FaceReport report = predicted();
    const auto row = [&](std::size_t face) {
        const auto lines = lines_of(faces_text(report));
        const auto rule = std::ranges::find_if(
            lines, [](const std::string& line) { return line.starts_with("---"); });
        return *(rule + 1 + static_cast<std::ptrdiff_t>(face));
    };
    CHECK(says(row(0), " 8.4/12 "));
    CHECK(says(row(0), " yes   -       crisp"));
    CHECK(says(row(1), " - "));
    CHECK(says(row(1), " no    -       cut off"));
    report.table.faces[0].margin.back_m = infinity;
    report.table.faces[0].whole_head_fine = false;
    CHECK(says(row(0), " 8.4/∞ "));
    CHECK(says(row(0), " part  -       crisp"));
}

TEST_CASE("the table fits a terminal of 100 columns", "[report][property]") {
    const auto lines = lines_of(faces_text(rendered()));
    const auto rule = std::ranges::find_if(
        lines, [](const std::string& line) { return line.starts_with("---"); });
    REQUIRE(rule != lines.end());
    CHECK(rule->size() <= 100);
}
