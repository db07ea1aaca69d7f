#include "papers/card/card.h"

#include "groups.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::papers;

namespace {

constexpr std::array papers_to_choose{Paper::a4, Paper::a5, Paper::letter, Paper::phone};

const Image<Rgb8> some_picture{72, 48, Rgb8{120, 130, 90}};

bool overlap(const report::Frame& a, const report::Frame& b) {
    // What is worked out in points is not lettered to a thousandth of one.
    constexpr double touching_pt = 0.01;
    return std::min(a.right, b.right) - std::max(a.left, b.left) > touching_pt &&
           std::min(a.bottom, b.bottom) - std::max(a.top, b.top) > touching_pt;
}

void check_apart(const std::vector<Box>& boxes) {
    for (std::size_t i = 0; i < boxes.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (overlap(boxes[i].place, boxes[j].place))
                FAIL_CHECK("“" << boxes[j].text << "” lies on “" << boxes[i].text << "”");
}

void check_legible(const Page& page, Paper paper) {
    const double margin_pt = size_of(paper).margin_pt;
    const Image<Rgb8> whole = page.canvas().pixels(1);
    for (const auto* boxes : {&page.boxes(), &page.labels()})
        for (const Box& box : *boxes) {
            CAPTURE(box.text, box.place.left, box.place.top, box.place.right, box.place.bottom);
            CHECK((box.text_pt == 0 || box.text_pt >= least_text_pt));
            CHECK(box.place.left >= margin_pt - 0.01);
            CHECK(box.place.top >= margin_pt - 0.01);
            CHECK(box.place.right <= whole.width_px() - margin_pt + 0.01);
            CHECK(box.place.bottom <= whole.height_px() - margin_pt + 0.01);
        }
    check_apart(page.boxes());
    check_apart(page.labels());
}

bool says(const Page& page, const std::string& text) {
    return std::ranges::any_of(
        page.boxes(), [&](const Box& box) { return box.text.find(text) != box.text.npos; });
}

}  // namespace

TEST_CASE("nothing on a card of a demo scene is cut, lies on another or is lettered below seven "
          "points",
          "[papers][property]") {
    for (const std::string& file : rehearsal::demo_scene_files()) {
        CAPTURE(file);
        const CardFacts facts = card_facts(*scene_file::read_scene(file), {});
        for (const Paper paper : papers_to_choose) {
            CAPTURE(static_cast<int>(paper));
            check_legible(card(facts, some_picture, {.paper = paper}), paper);
        }
        check_legible(card(facts, some_picture, {.units = Units::imperial, .language = german()}),
                      Paper::a5);
    }
}

TEST_CASE("forty people with long names in several scripts stand on one card, every one of them",
          "[papers][property]") {
    for (const int people : {1, 2, 12, 40}) {
        const scene::Scene scene = group_of(people);
        const CardFacts facts = card_facts(scene, {});
        for (const Paper paper : papers_to_choose) {
            CAPTURE(people, static_cast<int>(paper));
            const Page page = card(facts, some_picture, {.paper = paper, .language = german()});
            check_legible(page, paper);
            for (const scene::Person& person : scene.people) {
                CAPTURE(person.name);
                CHECK(says(page, person.name));
            }
        }
    }
}

TEST_CASE("a group that no card holds is told from the front, and how many are left out",
          "[papers][property]") {
    const CardFacts facts = card_facts(group_of(150), {});
    const Page page = card(facts, some_picture, {});
    check_legible(page, Paper::a5);
    const auto told = std::ranges::count_if(facts.scene.people, [&](const scene::Person& person) {
        return std::ranges::any_of(page.boxes(), [&](const Box& box) {
            return box.text.find(person.name) != box.text.npos &&
                   box.text.find(',') == box.text.npos;
        });
    });
    CHECK(told > 10);
    CHECK(told < 150);
    CHECK(says(page, "no room"));
}

TEST_CASE("a card without a picture says all the rest", "[papers][property]") {
    const CardFacts facts = card_facts(rehearsal::demo_scene("choir"), {});
    const Page without = card(facts, {}, {});
    check_legible(without, Paper::a5);
    std::set<std::string> texts;
    for (const Box& box : without.boxes())
        texts.insert(box.text);
    const Page with = card(facts, some_picture, {});
    for (const Box& box : with.boxes())
        if (!box.text.empty())
            CHECK(texts.contains(box.text));
}

TEST_CASE("a card is black on white, with a grey that black is read on", "[papers][property]") {
    const CardFacts facts = card_facts(rehearsal::demo_scene("choir"), {});
    const Image<Rgb8> pixels = card(facts, {}, {}).canvas().pixels(2);
    CHECK(std::ranges::all_of(pixels.pixels(), [](const Rgb8& pixel) {
        return pixel.r == pixel.g && pixel.g == pixel.b;
    }));
}

TEST_CASE("the same scene gives the same card, to the byte", "[papers][property]") {
    const scene::Scene scene = rehearsal::demo_scene("steps");
    const auto made = [&] {
        return card_bytes(card_facts(scene, {}), some_picture, {}, report::PageKind::pdf);
    };
    CHECK(made() == made());
}
