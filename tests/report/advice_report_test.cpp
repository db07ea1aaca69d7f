#include "report/answers/advice_report.h"

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
