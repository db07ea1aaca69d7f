#include "report/text/trouble_words.h"

#include <catch2/catch.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace backrow;
using namespace backrow::report;

namespace {

plan::Face face(std::string name) {
    plan::Face made;
    made.name = std::move(name);
    made.cropping.has_whole_head = true;
    made.visible_fraction = 1;
    return made;
}

}  // namespace

TEST_CASE("nothing amiss has no words", "[report][property]") {
    const std::vector<plan::Face> faces{face("Odile"), face("Bram")};
    CHECK(trouble_sentences(faces).empty());
    CHECK(short_trouble_words(faces).empty());
    CHECK(face_trouble_words(faces[0]).empty());
}

TEST_CASE("who is hidden, whose head is cut and what else is cut are told in that order",
          "[report][property]") {
    std::vector<plan::Face> faces{face("Odile"), face("Bram"), face("Sefu"), face("Yuki")};
    faces[0].cropping.cut_at = plan::Cut::knees;
    faces[1].cropping.has_whole_head = false;
    faces[1].cropping.cut_at = plan::Cut::crown;
    faces[2].visible_fraction = 0.123;
    faces[2].hiders = {"Odile", "sofa"};
    faces[3].cropping.is_head_close = true;
    CHECK(trouble_sentences(faces) ==
          std::vector<std::string>{"Sefu is hidden by Odile and sofa: 12 % of the face is seen.",
                                   "Head not whole in the picture: Bram.",
                                   "Head close to the edge of the picture: Yuki.",
                                   "The frame cuts 1 at the knees."});
    CHECK(short_trouble_words(faces) == "1 hidden, 1 head cut, 1 body cut");
    CHECK(face_trouble_words(faces[1]) == "cut at the crown");
    CHECK(face_trouble_words(faces[0]).empty());
    CHECK(cut_words(faces[0]) == "cut at the knees");
}

TEST_CASE("a whole group that is cut alike is told as one", "[report][property]") {
    std::vector<plan::Face> faces{face("Odile"), face("Bram")};
    for (plan::Face& each : faces)
        each.cropping.cut_at = plan::Cut::waist;
    CHECK(trouble_sentences(faces) ==
          std::vector<std::string>{"The frame cuts everybody at the waist."});
}

TEST_CASE("what brings everybody into the picture is told with a look behind",
          "[report][property]") {
    CHECK(whole_group_sentence(std::nullopt, Units::metric).empty());
    CHECK(whole_group_sentence(plan::WholeGroup{}, Units::metric).empty());
    const plan::WholeGroup both{.lens_to_mark_m = 4.57, .focal_length_mm = 29};
    CHECK(whole_group_sentence(both, Units::metric) ==
          "Everybody would be whole in the picture from 4.57 m (look behind you before you step "
          "back), or with 29 mm from here.");
    CHECK(whole_group_sentence(both, Units::imperial).find("15 ft 0 in (look behind") !=
          std::string::npos);
    CHECK(whole_group_sentence(plan::WholeGroup{.focal_length_mm = 29}, Units::metric) ==
          "Everybody would be whole in the picture with 29 mm from here.");
}
