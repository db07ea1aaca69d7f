#include "papers/card/card.h"

#include "groups.h"
#include "pages.h"

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
    std::size_t turn = 0;
    for (const int people : {1, 2, 12, 40}) {
        const scene::Scene scene = group_of(people);
        const CardFacts facts = card_facts(scene, {});
        for (const Paper paper : papers_to_choose)
            for (const auto& [language, units] :
                 spoken(turn++ + static_cast<std::size_t>(people))) {
                CAPTURE(people, static_cast<int>(paper), language, static_cast<int>(units));
                const Page page =
                    card(facts, some_picture,
                         {.paper = paper, .units = units, .language = *Language::of(language)});
                check_legible(page, paper);
                for (const scene::Person& person : scene.people) {
                    CAPTURE(person.name);
                    CHECK(says(page, person.name));
                }
            }
    }
}

TEST_CASE("a card that has no room for drawings has its picture where that fits",
          "[papers][property]") {
    const auto pictures_on = [](int people) {
        const Page page = card(card_facts(group_of(people), {}), some_picture, {});
        // Signs of verdicts are smaller.
        constexpr double least_pt = 40;
        return std::ranges::count_if(page.boxes(), [](const Box& box) {
            return box.text_pt == 0 && box.place.right - box.place.left > least_pt;
        });
    };
    CHECK(pictures_on(12) == 3);
    CHECK(pictures_on(40) == 1);
    CHECK(pictures_on(150) == 0);
}

TEST_CASE("names and a title as long as a scene may have them leave a card whole",
          "[papers][property]") {
    const CardFacts facts = card_facts(longest_names(), {});
    for (const Paper paper : papers_to_choose)
        check_legible(card(facts, some_picture, {.paper = paper}), paper);
}

// Which things are minded at a shoot is common practice, no source.
TEST_CASE("a card minds what its scene calls for, and nothing else", "[papers][practice]") {
    const scene::Scene plain = group_of(2);
    using Found = std::set<std::string>;
    const auto minded = [&](const auto& change) {
        scene::Scene scene = plain;
        change(scene);
        const Page page = card(card_facts(scene, {}), some_picture, {});
        Found found;
        for (const auto& [begins, name] :
             {std::pair{"People stand raised", "raised"},
              std::pair{"The camera stands high", "high"}, std::pair{"Water is near", "water"},
              std::pair{"Never look at the sun", "sun"}, std::pair{"Traffic:", "traffic"},
              std::pair{"A child is carried", "child"}})
            if (says(page, begins))
                found.insert(name);
        CHECK(says(page, "Mind") == !found.empty());
        return found;
    };
    const auto before = [&](setting::BackdropKind kind) {
        return minded(
            [kind](scene::Scene& scene) { scene.setting.backdrops.push_back({.kind = kind}); });
    };
    CHECK(minded([](scene::Scene&) {}) == Found{});
    CHECK(minded([](scene::Scene& scene) { scene.camera.height_m = 2.5; }) == Found{"high"});
    CHECK(minded([](scene::Scene& scene) { scene.people[0].place.up_m = 0.3; }) == Found{"raised"});
    CHECK(minded([](scene::Scene& scene) { scene.people[1].carrier = 0; }) == Found{"child"});
    CHECK(minded([](scene::Scene& scene) {
              scene.light.scene_ev100 = 14;
              scene.light.sun_azimuth_deg = 180;
              scene.light.sun_elevation_deg = 5;
          }) == Found{"sun"});
    CHECK(before(setting::BackdropKind::water) == Found{"water"});
    CHECK(before(setting::BackdropKind::beach) == Found{"water"});
    CHECK(before(setting::BackdropKind::street) == Found{"traffic"});
    CHECK(before(setting::BackdropKind::wall) == Found{});
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

// That few lenses are perfect wide open is common practice, no source.
TEST_CASE("a card wider than f/2 says where it rests on a perfect lens, and of which lenses",
          "[papers][practice]") {
    const auto told = [](const std::vector<std::string>& overrides) {
        const Page page =
            card(card_facts(rehearsal::demo_scene("couple", overrides), {}), some_picture, {});
        return std::pair{says(page, "Reckoned with a perfect lens"),
                         says(page, "Other lenses are taken as perfect")};
    };
    CHECK(told({"camera.f_number=1.4"}) == std::pair{true, false});
    CHECK(told({"camera.f_number=2"}) == std::pair{false, false});
    CHECK(told({"camera.f_number=1.4", "lens.profile=typical-fast-prime"}) ==
          std::pair{false, true});
}
