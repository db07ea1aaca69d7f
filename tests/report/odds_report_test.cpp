#include "report/answers/odds_report.h"

#include "../scene/fifty.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <string>

using namespace backrow;
using namespace backrow::report;
using nlohmann::json;

namespace {

OddsReport reported() {
    return {.title = "Harbour choir",
            .camera = scene::fifty_wide_open(),
            .lapses = {},
            .grade = optics::Grade::fine,
            .seed = 1,
            .odds = {.trials = 1'000'000,
                     .sharp = {0.61, 0.0005},
                     .sharp_closed_form = 0.6104,
                     .eyes_open = 0.42,
                     .both = {0.2562, 0.0002},
                     .frames = {.p90 = 8, .p95 = 11, .p99 = 16},
                     .faces = {{"Odile", {0.97, 0.0002}}, {"Zoë, \"Z\"", {0.63, 0.0005}}}}};
}

OddsReport hopeless() {
    OddsReport report = reported();
    report.odds.sharp = report.odds.both = {0, 1e-6};
    report.odds.sharp_closed_form.reset();
    report.odds.frames = {};
    return report;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("the odds as JSON have the documented keys", "[report][property]") {
    const json odds = json::parse(odds_json(reported()));
    CHECK(odds["trials"] == 1'000'000);
    CHECK(odds["sharp"] == 0.61);
    CHECK(odds["eyes_open"] == 0.42);
    CHECK(odds["both"] == 0.2562);
    CHECK(odds["frames"] == json{{"p90", 8}, {"p95", 11}, {"p99", 16}});
    REQUIRE(odds["faces"].size() == 2);
    CHECK(odds["faces"][0]["name"] == "Odile");
    CHECK(odds["faces"][0]["sharp"] == 0.97);
    CHECK(odds["sharp_standard_error"] == 0.0005);
    CHECK(odds["sharp_closed_form"] == 0.6104);
    CHECK(odds["seed"] == 1);
    CHECK(odds["grade"] == "fine");
}

TEST_CASE("where no frame is good the numbers of frames are null", "[report][property]") {
    const json odds = json::parse(odds_json(hopeless()));
    CHECK(odds["frames"] == json{{"p90", nullptr}, {"p95", nullptr}, {"p99", nullptr}});
    CHECK(odds["sharp_closed_form"].is_null());
    CHECK(has(odds_text(hopeless()), "No number of frames is enough"));
}

TEST_CASE("the odds as text say chances, errors and frames", "[report][property]") {
    const std::string text = odds_text(reported());
    CHECK(has(text, "Harbour choir\n50 mm at f/1.2, shutter 0.004 s\n"));
    CHECK(has(text, "people sway 6 mm forward and back, 3.6 mm sideways; camera 8 mm; 15 blinks a "
                    "minute of 0.25 s\n"));
    CHECK(has(text, "All faces fine: 61.0 % ± 0.1 (by integration 61.040 %)\n"));
    CHECK(has(text, "All eyes open: 42.0 %\n"));
    CHECK(has(text, "Both in one frame: 25.62 % ± 0.04\n"));
    CHECK(has(text, "8 for 90 % certainty, 11 for 95 %, 16 for 99 %\n"));
    CHECK(has(text, "Least sure: Zoë, \"Z\", 63.0 % of frames.\n"));
    CHECK(has(text, "1000000 trials, seed 1"));
    CHECK(text.back() == '\n');
}

TEST_CASE("what does not go wrong is not listed", "[report][property]") {
    OddsReport report = reported();
    report.lapses = {.sway_mm = 0,
                     .sideways_sway_mm = 0,
                     .camera_sway_mm = 0,
                     .autofocus_mm = 0,
                     .blinks_per_min = 0};
    CHECK(has(odds_text(report), "Nothing goes wrong.\n"));
    report.motion = true;
    report.lapses.recompose_deg = 5;
    CHECK(
        has(odds_text(report), "What goes wrong: recomposed by 5°; movement, 0 s after the lock"));
}

TEST_CASE("the odds as CSV have a record for each person", "[report][property]") {
    CHECK(odds_csv(reported()) == "name,sharp,sharp_standard_error\r\nOdile,0.97,0.0002\r\n"
                                  "\"Zoë, \"\"Z\"\"\",0.63,0.0005\r\n");
}
