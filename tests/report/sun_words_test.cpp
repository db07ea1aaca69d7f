#include "report/text/sun_words.h"

#include <catch2/catch.hpp>

#include <algorithm>

#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::report;

namespace {

std::vector<plan::Face> faces_of(const std::vector<std::string>& names) {
    std::vector<plan::Face> faces;
    for (const std::string& name : names)
        faces.emplace_back().name = name;
    return faces;
}

std::vector<std::string> told(const plan::SunChecks& checks, const std::vector<plan::Face>& faces) {
    std::vector<std::string> whats;
    for (const LightAdvice& advice : light_advice(checks, faces)) {
        CHECK_FALSE(advice.mend.empty());
        whats.push_back(advice.what);
    }
    return whats;
}

}  // namespace

TEST_CASE("what the sun does is told with those to whom it does it", "[report][property]") {
    std::vector<plan::Face> faces = faces_of({"Odile", "Bram", "Sefu", "Yuki", "Ines"});
    faces[1].shaders = {"Odile", "arch"};
    plan::SunChecks checks{.from = plan::LightFrom::behind_camera,
                           .in_eyes = {0, 2},
                           .under_hats = {4},
                           .shadow_across = {1}};
    CHECK(told(checks, faces) ==
          std::vector<std::string>{"The sun is behind the camera.",
                                   "Sun in the eyes: Odile and Sefu.",
                                   "A shadow across the face: Bram, from Odile and arch.",
                                   "The hat's shadow on the eyes: Ines."});
    checks = {.from = plan::LightFrom::behind_group, .backlit = {0, 1, 2, 3, 4}};
    CHECK(told(checks, faces) ==
          std::vector<std::string>{"The sun is behind the group.", "Backlit: everybody."});
    checks.backlit = {0, 1, 2, 3};
    CHECK(told(checks, faces).back() == "Backlit: Odile, Bram, Sefu and 1 more.");
}

// A safety sentence: the sun through a lens burns eyes, as every manual of a camera warns. Common
// practice, no source.
TEST_CASE("a sun in the picture is cautioned against before anything else", "[report][practice]") {
    const std::vector<plan::Face> faces = faces_of({"Odile"});
    const auto advice =
        light_advice({.from = plan::LightFrom::behind_group, .is_in_frame = true}, faces);
    REQUIRE(advice.size() == 2);
    CHECK(advice[0].is_caution);
    CHECK(advice[0].mend.find("optical finder") != std::string::npos);
    CHECK_FALSE(advice[1].is_caution);
}

TEST_CASE("every light has its words", "[report][property]") {
    std::vector<std::string> all;
    for (const auto from :
         {plan::LightFrom::behind_camera, plan::LightFrom::aside, plan::LightFrom::behind_group,
          plan::LightFrom::overhead, plan::LightFrom::sky, plan::LightFrom::below_horizon,
          plan::LightFrom::window}) {
        const std::vector<std::string> words = told({.from = from}, faces_of({"Odile"}));
        REQUIRE(words.size() == 1);
        CHECK(std::ranges::find(all, words[0]) == all.end());
        all.push_back(words[0]);
    }
}
