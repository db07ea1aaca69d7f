#include "report/answers/advice_report.h"

#include "../scene/fifty.h"

#include "scene/camera_view.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <utility>

namespace backrow::report {
namespace {

scene::Person somebody(std::string name, double across_m, double back_m) {
    scene::Person person;
    person.name = std::move(name);
    person.place = {.across_m = across_m, .back_m = back_m};
    person.measures = figures::body_measures(1.70, std::nullopt);
    return person;
}

AdviceReport report_of(double narrowest_f_number, double second_back_m = 0.3) {
    AdviceReport report;
    report.scene.camera = scene::fifty_wide_open();
    report.scene.title = "Two";
    report.scene.people = {somebody("Ana, the elder", -0.4, 0),
                           somebody("Dr. Bo", 0.4, second_back_m)};
    report.scene.people[1].own.back_m = second_back_m;
    report.scene.focus = scene::FocusOnPerson{"Ana, the elder"};
    report.wanted.lenses = {plan::scene_lens(report.scene)};
    report.wanted.narrowest_f_number = narrowest_f_number;
    report.wanted.most_move_cm = narrowest_f_number < 2 ? 0 : 30;
    report.advice =
        *plan::advise(report.scene, report.wanted, [](double /*share*/) { return true; });
    return report;
}

}  // namespace

TEST_CASE("a name with dots or commas survives overrides and CSV", "[report][property]") {
    AdviceReport report = report_of(16);
    REQUIRE_FALSE(report.advice.answers.empty());
    plan::Answer answer = report.advice.answers.front();
    answer.scene.people[1].own.back_m = 0.25;
    const auto overrides = plan::values_for(report.scene, answer);
    CHECK(std::ranges::count(overrides, "person.\"Dr. Bo\".back_m=0.25") == 1);
    const std::string csv = advice_csv(report);
    CHECK(csv.find("\"Ana, the elder ") != std::string::npos);
    CHECK(std::ranges::count(csv, '\n') ==
          1 + static_cast<std::ptrdiff_t>(report.advice.answers.size()));
}

TEST_CASE("each answer has its number and headline", "[report][property]") {
    const AdviceReport report = report_of(16);
    const std::string text = advice_text(report);
    for (std::size_t i = 1; i <= report.advice.answers.size(); ++i) {
        std::string headline = std::to_string(i);
        headline += ". f/";
        CHECK(text.find(headline) != std::string::npos);
    }
    CHECK(text.ends_with('\n'));
}

// f/1.2 stands for f/1.19, and 1/250 s at ISO 100 so suits EV 8.47: 3½ stops less than EV 12.
TEST_CASE("the answer says what the present setting lacks", "[report][property]") {
    AdviceReport report = report_of(16);
    report.scene.light.scene_ev100 = 12;
    CHECK(advice_text(report).find("The present setting is 3½ stops over for EV 12.") !=
          std::string::npos);
    report.scene.light.scene_ev100 = 8.5;
    CHECK(advice_text(report).find("The present setting") == std::string::npos);
}

TEST_CASE("each lens carried gets a line, and one that loses says why", "[report][property]") {
    AdviceReport report = report_of(16);
    CHECK(advice_text(report).find("Lenses carried") == std::string::npos);
    report.wanted.lenses.push_back({.focal_length_mm = 100, .widest_f_number = 2});
    report.wanted.lenses.push_back({.focal_length_mm = 24, .widest_f_number = 2.8});
    report.advice =
        *plan::advise(report.scene, report.wanted, [](double /*share*/) { return true; });
    report.advice.lenses[0].answers = {0, 2};
    report.advice.lenses[1].answers.clear();
    report.advice.lenses[1].best.reset();
    report.advice.lenses[1].loses_faces = false;
    report.advice.lenses[2].answers.clear();
    report.advice.lenses[2].best = {
        .f_number = 4, .lens_to_mark_m = 6.2, .background_percent = 0.5};
    const std::string text = advice_text(report);
    CAPTURE(text);
    CHECK(text.find("50 mm f/1.2, taken as perfect: answers 1, 3\n") != std::string::npos);
    CHECK(text.find("100 mm f/2, taken as perfect: nothing within these limits\n") !=
          std::string::npos);
    CHECK(text.find("24 mm f/2.8, taken as perfect: holds at f/4 from 6.20 m with less background "
                    "blur, 0.5 %\n") != std::string::npos);
}

TEST_CASE("cautions stand below the answers, each once", "[report][property]") {
    AdviceReport report = report_of(16);
    report.advice.answers.push_back(report.advice.answers.front());
    for (plan::Answer& answer : report.advice.answers)
        answer.cautions = {plan::Caution::photographer_steps_back};
    const std::string text = advice_text(report);
    const auto first = text.find("Mind: The camera goes back: look behind you");
    CHECK(first != std::string::npos);
    CHECK(text.find("Mind: ", first + 1) == std::string::npos);
    CHECK(advice_json(report).find("\"cautions\"") != std::string::npos);
}

TEST_CASE("the nearest miss says whom it spoils and which opening would help",
          "[report][property]") {
    AdviceReport report = report_of(1.2, 2.0);
    REQUIRE(report.advice.nearest);
    const std::string text = advice_text(report);
    CHECK(text.find("Spoilt by ") != std::string::npos);
    CHECK(text.find("--narrowest") != std::string::npos);
    CHECK(text.find("--move-max") != std::string::npos);
    CHECK(advice_csv(report).find("\r\nfalse,") != std::string::npos);
}

}  // namespace backrow::report
