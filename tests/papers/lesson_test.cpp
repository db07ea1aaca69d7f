#include "papers/lesson/lesson.h"

#include "groups.h"
#include "pages.h"

#include "papers/lesson/lesson_words.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <string>

using namespace backrow;
using namespace backrow::papers;

namespace {

constexpr std::array papers_to_choose{Paper::a4, Paper::letter};

/// Plain pictures of the right size; the blur measured in each is the one predicted.
report::StripPictures plain_pictures(const LessonFacts& facts) {
    const report::StripCell size = lesson_picture_size(facts);
    report::StripPictures pictures;
    for (const plan::StripFrame& frame : facts.strip.frames)
        pictures.made.push_back(
            {.whole = {size.whole.width, size.whole.height, Rgb8{90, 120, 90}},
             .face = {size.face.width, size.face.height, Rgb8{190, 150, 120}},
             .measured_blur_px =
                 frame.worst ? std::optional{frame.worst->face.predicted_blur_px} : std::nullopt});
    return pictures;
}

Page page_of(const LessonFacts& facts, const LessonChoices& choices) {
    return lesson(facts, plain_pictures(facts), choices);
}

}  // namespace

TEST_CASE("nothing on the lesson of a demo scene is cut, lies on another or is lettered below "
          "seven points",
          "[papers][property]") {
    std::size_t turn = 0;
    for (const std::string& file : rehearsal::demo_scene_files()) {
        CAPTURE(file);
        const LessonFacts facts = lesson_facts(*scene_file::read_scene(file));
        for (const auto& [language, units] : spoken(turn++)) {
            CAPTURE(language, static_cast<int>(units));
            const Paper paper = papers_to_choose[turn / 2 % 2];
            check_legible(
                page_of(facts,
                        {.paper = paper, .units = units, .language = *Language::of(language)}),
                paper);
        }
    }
}

TEST_CASE("one, two, twelve and forty people with long names in several scripts fit on a lesson",
          "[papers][property]") {
    std::size_t turn = 0;
    for (const int people : {1, 2, 12, 40}) {
        const LessonFacts facts = lesson_facts(group_of(people));
        for (const Paper paper : papers_to_choose)
            for (const auto& [language, units] :
                 spoken(turn++ + static_cast<std::size_t>(people))) {
                CAPTURE(people, static_cast<int>(paper), language, static_cast<int>(units));
                check_legible(
                    page_of(facts,
                            {.paper = paper, .units = units, .language = *Language::of(language)}),
                    paper);
            }
    }
}

TEST_CASE("names and a title as long as a scene may have them leave a lesson whole",
          "[papers][property]") {
    const LessonFacts facts = lesson_facts(longest_names());
    for (const Paper paper : papers_to_choose)
        check_legible(page_of(facts, {.paper = paper}), paper);
}

TEST_CASE("a lesson has three reasons, three exercises, and their answers at its foot",
          "[papers][property]") {
    const LessonFacts facts = lesson_facts(rehearsal::demo_scene("choir"));
    const LessonWords words = lesson_words(facts, plain_pictures(facts), Language{}, Units::metric);
    CHECK(words.theory.size() == 3);
    CHECK(words.exercises.size() == 3);
    CHECK(words.answers.size() == 3);
    const Page page = page_of(facts, {});
    double lowest_question = 0, highest_answer = INFINITY;
    for (const Box& box : page.boxes()) {
        if (std::ranges::find(words.exercises, box.text) != words.exercises.end())
            lowest_question = std::max(lowest_question, box.place.bottom);
        if (std::ranges::find(words.answers, box.text) != words.answers.end())
            highest_answer = std::min(highest_answer, box.place.top);
    }
    CHECK(lowest_question > 0);
    CHECK(highest_answer > lowest_question);
    CHECK(highest_answer < size_of(Paper::a4).height_pt);
    // On their heads: the first answer is the lowest.
    const auto place = [&](const std::string& text) {
        return std::ranges::find(page.boxes(), text, &Box::text)->place;
    };
    CHECK(place(words.answers[0]).top > place(words.answers[1]).top);
    CHECK(place(words.answers[1]).top > place(words.answers[2]).top);
    CHECK(place(words.answers_heading).right >
          size_of(Paper::a4).width_pt - size_of(Paper::a4).margin_pt - 1);
}

TEST_CASE("who goes back for a lesson looks behind, and who only comes nearer need not",
          "[papers][property]") {
    const auto minds = [](const LessonFacts& facts) {
        return !lesson_words(facts, plain_pictures(facts), Language{}, Units::metric).mind.empty();
    };
    const LessonFacts facts = lesson_facts(rehearsal::demo_scene("choir"));
    CHECK(minds(facts));
    LessonFacts nearer = facts;
    nearer.strip = plan::strip(facts.scene, {facts.strip.places.front()}, facts.strip.f_numbers);
    CHECK_FALSE(minds(nearer));
}

TEST_CASE("alone in a row nobody is asked to focus between two, but how far they may lean",
          "[papers][property]") {
    const LessonFacts facts = lesson_facts(group_of(1));
    const LessonWords words = lesson_words(facts, plain_pictures(facts), Language{}, Units::metric);
    CHECK_THAT(words.exercises[1], Catch::Contains("How far may"));
    CHECK_THAT(words.answers[1], Catch::Contains("towards the camera"));
}

TEST_CASE("the same scene gives the same lesson, to the byte", "[papers][property]") {
    const auto made = [] {
        const LessonFacts facts = lesson_facts(rehearsal::demo_scene("couple"));
        return lesson_bytes(facts, plain_pictures(facts), {}, report::PageKind::pdf);
    };
    CHECK(made() == made());
}
