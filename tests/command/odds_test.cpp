#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <sstream>

// backrow odds, from the command line to the answer on stdout.

namespace backrow::command {
namespace {

using nlohmann::json;

Ran odds(const std::string& scene, const Words& more = {}) {
    return run(words("odds", scene, more));
}

json odds_of(const std::string& scene, Words more = {}) {
    more.insert(more.end(), {"--format", "json"});
    const Ran ran = odds(scene, more);
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    CHECK(ran.err.empty());
    return json::parse(ran.out);
}

const Words everybody_fine{"--set", "camera.f_number=4", "--set", "focus.balanced=true"};

}  // namespace

TEST_CASE("the odds of a demo scene have the documented keys", "[command][property]") {
    const json answer = odds_of(demo("choir.toml"), everybody_fine);
    CHECK(answer["trials"] == 1'000'000);
    CHECK(answer["both"].get<double>() ==
          Approx(answer["sharp"].get<double>() * answer["eyes_open"].get<double>()));
    CHECK(answer["frames"]["p90"] <= answer["frames"]["p95"]);
    CHECK(answer["frames"]["p95"] <= answer["frames"]["p99"]);
    CHECK(answer["faces"].size() == 12);
    CHECK(answer["faces"][0]["name"] == "Yuki");
    CHECK(answer["faces"][0].contains("sharp"));
}

TEST_CASE("the same question has the same answer", "[command][property]") {
    const Words unsure{"--set", "odds.line_up_mm=200", "--trials", "5000"};
    Words reseeded = unsure;
    reseeded.insert(reseeded.end(), {"--seed", "2"});
    const json first = odds_of(demo("couple.toml"), unsure);
    CHECK(odds_of(demo("couple.toml"), unsure) == first);
    CHECK(odds_of(demo("couple.toml"), reseeded)["sharp"] != first["sharp"]);
}

TEST_CASE("what is left out does not go wrong", "[command][property]") {
    CHECK(odds_of(demo("choir.toml"))["eyes_open"] < 0.6);
    CHECK(odds_of(demo("choir.toml"), {"--without", "sway,blinks"})["eyes_open"] == 1.0);
    const json none = odds_of(demo("choir.toml"), {"--without", "sway", "--without", "camera"});
    for (const json& face : none["faces"])
        CHECK((face["sharp"] == 0.0 || face["sharp"] == 1.0));
}

TEST_CASE("text and CSV answer too", "[command][property]") {
    const Ran text = odds(demo("couple.toml"), everybody_fine);
    CHECK(text.exit_code == 0);
    CHECK(text.out.find("All faces fine: ") != std::string::npos);
    CHECK(text.out.find("Frames to shoot for one good one: ") != std::string::npos);
    const Ran csv = odds(demo("couple.toml"), {"--format", "csv"});
    CHECK(csv.exit_code == 0);
    CHECK(csv.out.starts_with("name,sharp,sharp_standard_error\r\nAmara,"));
}

TEST_CASE("a wrong option of the odds is a wrong command line", "[command][property]") {
    for (const Words& wrong :
         {Words{"--without", "rain"}, Words{"--trials", "0"}, Words{"--trials", "many"},
          Words{"--grade", "soft"}, Words{"--seed", "-1"}, Words{"--without"}}) {
        const Ran ran = odds(demo("couple.toml"), wrong);
        CAPTURE(wrong[0], ran.err);
        CHECK(ran.exit_code == 2);
        CHECK(ran.out.empty());
        CHECK(ran.err.find(wrong[0]) != std::string::npos);
    }
}

TEST_CASE("a key of the odds out of range is a mistake in the scene", "[command][property]") {
    const Ran ran = odds(demo("couple.toml"), {"--set", "odds.recompose_deg=90"});
    CHECK(ran.exit_code == 1);
    CHECK(ran.err.find("`recompose_deg` cannot be 90") != std::string::npos);
    CHECK(ran.out.empty());
}

// How long it takes is measured by hand (DEVELOPERS.md): a busy machine must not fail a test.
TEST_CASE("twenty people are tried a million times, one row for each", "[command][property]") {
    const Folder folder;
    std::ostringstream people;
    for (char name = 'A'; name < 'U'; ++name)
        people << '"' << name << "\",";
    const std::string scene = folder.write("twenty.toml", "[[row]]\npeople = [" + people.str() +
                                                              "]\n[odds]\nautofocus_mm = 20\n");
    const Ran ran = odds(scene, {"--trials", "1000000", "--format", "json"});
    REQUIRE(ran.exit_code == 0);
    const auto answer = nlohmann::json::parse(ran.out);
    CHECK(answer.at("trials") == 1000000);
    CHECK(answer.at("faces").size() == 20);
}

}  // namespace backrow::command
