#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

// backrow advise, from the command line to the answer on stdout.

namespace backrow::command {
namespace {

using nlohmann::json;

Ran advise(const std::string& scene, const Words& more = {}) {
    return run(words("advise", scene, more));
}

json advice_of(const std::string& scene, Words more = {}) {
    more.insert(more.end(), {"--format", "json"});
    const Ran ran = advise(scene, more);
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    CHECK(ran.err.empty());
    return json::parse(ran.out);
}

/// What `faces` says of the scene with the answer's own overrides.
json faces_with(const std::string& scene, const json& answer) {
    Words more{"--format", "json"};
    for (const json& set : answer["set"])
        more.insert(more.end(), {"--set", set.get<std::string>()});
    const Ran ran = run(words("faces", scene, more));
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    return json::parse(ran.out);
}

}  // namespace

// Tolerance: the focus is printed to a nanometre, and the worst face lies two centimetres and more
// from it; half of the last digit is 2.5e-8 of that.
TEST_CASE("every answer, set with --set, gives the same worst face in the face table",
          "[command][property]") {
    for (const char* name : {"couple.toml", "choir.toml", "steps.toml", "reunion.toml"})
        for (const Words& more : {Words{}, Words{"--grade", "crisp"}}) {
            const json advice = advice_of(demo(name), more);
            CHECK(advice["possible"] == true);
            CHECK(advice["answers"].size() <= 6);
            for (const json& answer : advice["answers"]) {
                const json table = faces_with(demo(name), answer);
                double worst = -1;
                for (const json& face : table["faces"])
                    worst = std::max(worst, face["view_arcmin"].get<double>());
                CAPTURE(name, answer["set"].dump());
                CHECK(answer["worst_view_arcmin"].get<double>() == Approx(worst).epsilon(2.5e-8));
                for (std::size_t i = 0; i < table["faces"].size(); ++i) {
                    const json& grade = table["faces"][i]["grade"];
                    CHECK(answer["faces"][i]["grade"] == grade);
                    CHECK((grade == "crisp" || (more.empty() && grade == "fine")));
                }
            }
        }
}

TEST_CASE("advice has the documented keys", "[command][property]") {
    const json answer = advice_of(demo("couple.toml"))["answers"][0];
    for (const char* key : {"f_number", "distance_m", "focal_length_mm", "focus", "moves",
                            "worst_face", "worst_view_arcmin", "grade", "background_blur_percent",
                            "stops_lost", "shutter_s", "iso", "faces"})
        CHECK(answer.contains(key));
    CHECK(answer["focus"].contains("on"));
    CHECK(answer["focus"].contains("distance_m"));
    for (const char* key : {"name", "grade", "margin_front_m", "margin_back_m"})
        CHECK(answer["faces"][0].contains(key));
}

TEST_CASE("who may not move is not moved", "[command][property]") {
    const json advice = advice_of(demo("couple.toml"), {"--move-max", "0"});
    for (const json& answer : advice["answers"])
        CHECK(answer["moves"].empty());
}

TEST_CASE("pixel by pixel there is no angle at the eye", "[command][property]") {
    const json advice = advice_of(demo("couple.toml"), {"--set", "viewing.use=pixels"});
    CHECK(advice["answers"][0]["worst_view_arcmin"].is_null());
    CHECK(advice["answers"][0]["worst_blur_px"].get<double>() <= 3.0);
}

TEST_CASE("after stepping back a crop brings the heads back to their size", "[command][property]") {
    const json advice = advice_of(
        demo("choir.toml"), {"--distance-min", "11", "--distance-max", "12", "--move-max", "0"});
    for (const json& answer : advice["answers"]) {
        const json& framing = answer["framing"];
        if (answer["distance_m"].get<double>() > 9.5) {
            CHECK(framing["size"].get<double>() < 1);
            CHECK(framing["crop"].get<double>() * framing["size"].get<double>() == Approx(1));
        }
    }
}

TEST_CASE("what is not possible ends with code 4 and the nearest miss", "[command][property]") {
    const Words impossible{"--grade", "crisp", "--narrowest", "2", "--move-max", "0"};
    const Ran text = advise(demo("choir.toml"), impossible);
    CHECK(text.exit_code == 4);
    CHECK(text.out.find("What comes nearest") != std::string::npos);
    Words as_json = impossible;
    as_json.insert(as_json.end(), {"--format", "json"});
    const Ran ran = advise(demo("choir.toml"), as_json);
    CHECK(ran.exit_code == 4);
    const json advice = json::parse(ran.out);
    CHECK(advice["possible"] == false);
    CHECK(advice["answers"].empty());
    CHECK(advice["nearest"]["worst_share_of_limit"].get<double>() > 1);
}

TEST_CASE("text and CSV advise too", "[command][property]") {
    const Ran text = advise(demo("couple.toml"));
    CHECK(text.exit_code == 0);
    CHECK(text.out.find("\n1. f/") != std::string::npos);
    const Ran csv = advise(demo("couple.toml"), {"--format", "csv"});
    CHECK(csv.exit_code == 0);
    CHECK(csv.out.starts_with("possible,f_number,"));
    CHECK(csv.out.find("\r\ntrue,") != std::string::npos);
}

TEST_CASE("whoever stands on a riser and is asked to move is told to mind its edge",
          "[command][property]") {
    const Words tight{"--grade", "crisp", "--narrowest", "4"};
    const json advice = advice_of(demo("choir.toml"), tight);
    bool raised = false;
    for (const json& answer : advice["answers"])
        for (const json& move : answer["moves"])
            raised = raised || move["name"] == "Bram" || move["name"] == "Nadia";
    REQUIRE(raised);
    CHECK(advise(demo("choir.toml"), tight).out.find("mind its edge") != std::string::npos);
}

// A lens carried without a profile is perfect, and one with a file brings its faults along: both
// are in `set`, so the face table says the same.
TEST_CASE("an answer through another lens can be set, profile and all", "[command][regression]") {
    const std::string soft = demo("lenses/gentle-fifty.toml");
    for (const Words& lens :
         {Words{"--lens", "85/1.8", "--distance-max", "19"}, Words{"--lens", "50/1.4," + soft}}) {
        const json advice = advice_of(demo("reunion.toml"), lens);
        REQUIRE(advice["possible"] == true);
        for (const json& answer : advice["answers"]) {
            const json table = faces_with(demo("reunion.toml"), answer);
            CAPTURE(answer["set"].dump());
            CHECK(answer["lens"]["taken_as_perfect"] == (lens.size() == 4));
            CHECK(std::abs(table["exposure"]["stops_over"].get<double>()) <= 0.2);
            for (std::size_t i = 0; i < table["faces"].size(); ++i) {
                const json& face = answer["faces"][i];
                CHECK(face["grade"] == table["faces"][i]["grade"]);
                CHECK(face["margin_front_m"].get<double>() >= 0.05 - 1e-9);
            }
        }
    }
}

TEST_CASE("a profile of a lens carried that is wrong is refused", "[command][property]") {
    const Ran missing = advise(demo("couple.toml"), {"--lens", "85/1.8,nowhere.toml"});
    CHECK(missing.exit_code == 1);
    CHECK(missing.out.empty());
    CHECK(missing.err.find("nowhere.toml") != std::string::npos);
    const Ran wider =
        advise(demo("couple.toml"), {"--lens", "50/1.0," + demo("lenses/gentle-fifty.toml")});
    CHECK(wider.exit_code == 1);
    CHECK(wider.out.empty());
    CHECK(wider.err.find("opens further than the profile") != std::string::npos);
}

TEST_CASE("a wrong option of the advice is a wrong command line", "[command][property]") {
    for (const Words& wrong :
         {Words{"--grade", "soft"}, Words{"--move-max", "-1"}, Words{"--lens", "85"},
          Words{"--lens", "wide/2"}, Words{"--lens", "85/1.8,"}, Words{"--movers-max", "-1"},
          Words{"--margin-cm", "-1"}, Words{"--narrowest", "0"}, Words{"--distance-max", "x"},
          Words{"--distance-min", "5", "--distance-max", "4"}}) {
        const Ran ran = advise(demo("couple.toml"), wrong);
        CAPTURE(wrong[0], ran.err);
        CHECK(ran.exit_code == 2);
        CHECK(ran.out.empty());
        CHECK(ran.err.find(wrong[0]) != std::string::npos);
    }
}

}  // namespace backrow::command
