#include "papers/client/client_page.h"

#include "groups.h"

#include "papers/client/client_words.h"
#include "papers/client/html.h"
#include "plan/faces/verdict.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <regex>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::papers;

namespace {

std::vector<plan::StripPlace> own_place(const scene::Scene& scene) {
    return {{.lens_to_mark_m = scene.camera.lens_to_mark_m,
             .focal_length_mm = scene.camera.focal_length_mm}};
}

ClientFacts facts_of(const scene::Scene& scene, const std::vector<double>& f_numbers) {
    return client_facts(scene, plan::strip(scene, own_place(scene), f_numbers), Leafing::apertures);
}

/// Noise, which no file makes small.
Image<Rgb8> noise(int width_px, int height_px) {
    Image<Rgb8> picture{width_px, height_px};
    std::uint32_t state = 1;
    const auto next = [&] {
        state = state * 1664525u + 1013904223u;
        return static_cast<std::uint8_t>(state >> 24);
    };
    for (Rgb8& pixel : picture.pixels())
        pixel = {next(), next(), next()};
    return picture;
}

/// Of everybody.
ClientPictures pictures_of(const ClientFacts& facts, const Image<Rgb8>& whole = {48, 32}) {
    ClientPictures pictures{
        .pictures = {}, .looked_at = {}, .columns = 2, .tile_width_px = 8, .tile_height_px = 10};
    for (std::size_t i = 0; i < facts.scene.people.size(); ++i)
        pictures.looked_at.push_back(i);
    const int rows = static_cast<int>(pictures.looked_at.size() + 1) / 2;
    for (std::size_t i = 0; i < facts.strip.frames.size(); ++i)
        pictures.pictures.push_back(
            {.whole = whole,
             .faces = Image<Rgb8>{16, 10 * rows},
             .places = std::vector<std::optional<FacePlace>>(facts.scene.people.size(),
                                                             FacePlace{0.25, 0.125, 0.5, 0.0625})});
    return pictures;
}

std::string page_of(const ClientFacts& facts, ClientChoices choices = {}) {
    const auto assets = client_assets();
    REQUIRE(assets);
    const auto page = client_page(facts, pictures_of(facts), *assets, choices);
    REQUIRE(page);
    return page->html;
}

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != text.npos; at = text.find(what, at + 1))
        ++found;
    return found;
}

scene::Scene with_names(std::vector<std::string> names) {
    scene::Scene scene = rehearsal::demo_scene("couple");
    for (std::size_t i = 0; i < scene.people.size(); ++i)
        scene.people[i].name = names[i];
    scene.focus = scene::FocusOnPerson{names[0]};
    return scene;
}

}  // namespace

TEST_CASE("a name or a title that looks like a tag shows as it is", "[papers][property]") {
    scene::Scene scene =
        with_names({"<script>alert(1)</script>", R"("><img src=x onerror='alert(2)'>&amp;)"});
    scene.title = "</title></style></script><b>Bo & co</b>";
    const std::string page = page_of(facts_of(scene, {1.2, 2, 4}));
    CHECK(count(page, "<script") == 1);
    CHECK(count(page, "</script") == 1);
    CHECK(count(page, "<img") == 2 * 3);
    CHECK(count(page, "<b>") == 0);
    CHECK(count(page, "</title") == 1);
    CHECK_THAT(page,
               Catch::Contains("&lt;script&gt;alert(1)&lt;/script&gt;") &&
                   Catch::Contains("&quot;&gt;&lt;img src=x onerror='alert(2)'&gt;&amp;amp;") &&
                   Catch::Contains("&lt;b&gt;Bo &amp; co&lt;/b&gt;"));
}

TEST_CASE("text and attributes of HTML are escaped, on one line and in UTF-8",
          "[papers][property]") {
    CHECK(html_text("a<b> & \"c\"\nd") == "a&lt;b&gt; &amp; &quot;c&quot; d");
    CHECK(html_text("\xff") == "\uFFFD");
    CHECK(element("p", {{"title", "1 > \"0\""}, {"hidden"}}, "in") ==
          "<p title=\"1 &gt; &quot;0&quot;\" hidden>in</p>");
    CHECK(void_element("br", {}) == "<br>");
}

// The hash of nothing by SHA-256 and base64, from memory, as browsers' consoles print it.
TEST_CASE("a policy knows a script by its hash", "[papers][from-memory]") {
    CHECK(policy_hash("") == "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
    CHECK(policy_hash("a") != policy_hash("b"));
}

TEST_CASE("a page asks for nothing from elsewhere, and runs nothing but its own",
          "[papers][property]") {
    const std::string page = page_of(facts_of(rehearsal::demo_scene("couple"), {1.2, 2, 4}));
    const auto assets = client_assets();
    CHECK_THAT(page, Catch::Contains("default-src 'none'; img-src data:; style-src " +
                                     policy_hash(assets->style) + "; script-src " +
                                     policy_hash(assets->script)));
    CHECK_FALSE(
        std::regex_search(page, std::regex{"https?:|url\\(|@import|style=\"|\\son[a-z]+="}));
    static const std::regex address{"(?:src|srcset|href)=\"([^\"]{0,11})"};
    for (std::sregex_iterator at{page.begin(), page.end(), address}, end; at != end; ++at)
        CHECK((*at)[1].str().starts_with("data:image/"));
}

TEST_CASE("what stands in the tables of a page is what faces says at each aperture and in each "
          "size",
          "[papers][property]") {
    const std::vector<double> f_numbers{1.2, 2, 4, 8};
    const scene::Scene scene = rehearsal::demo_scene("choir");
    const std::string page = page_of(facts_of(scene, f_numbers));
    std::string expected;
    for (const scene::Use use : {scene::Use::phone, scene::Use::album, scene::Use::wall})
        for (std::size_t person = 0; person < scene.people.size(); ++person)
            for (const double f_number : f_numbers) {
                scene::Scene now = scene;
                now.viewing = scene::viewing_for(use);
                now.camera.f_number = f_number;
                const plan::FaceTable table = plan::face_table(now, camera_view(now));
                expected += to_word(verdict_of(table.faces[person])) + std::string{' '};
            }
    std::string said;
    static const std::regex cell{"<td class=\"[a-z]+\">([^<]+)</td>"};
    for (std::sregex_iterator at{page.begin(), page.end(), cell}, end; at != end; ++at)
        said += (*at)[1].str() + ' ';
    CHECK(said == expected);
    CHECK_THAT(said, Catch::Contains("soft") && Catch::Contains("crisp"));
}

TEST_CASE("a picture is told by how many are sharp in it, who is not, and what is another than "
          "before",
          "[papers][property]") {
    const scene::Scene scene = rehearsal::demo_scene("couple");
    const ClientFacts facts = facts_of(scene, {1.2, 2, 5.6});
    const ClientWords words = client_words(facts, {}, Units::metric);
    const auto& album = facts.ways[facts.own_way].faces;
    REQUIRE(album[0][1].grade == optics::Grade::soft);
    REQUIRE(album[2][1].grade == optics::Grade::crisp);
    const auto said = [&](std::size_t i) { return words.pictures[i].said[facts.own_way]; };
    CHECK_THAT(said(0), Catch::StartsWith("Sharp: 1 of 2. A little soft: Joon. A point"));
    CHECK_THAT(said(1),
               Catch::StartsWith("Everybody is sharp. Sharp now, not yet at f/1.2: Joon."));
    CHECK_THAT(said(2), Catch::StartsWith("Everybody is as sharp as an eye can tell. A point"));
    CHECK(words.pictures[0].label == "f/1.2, as planned");
    CHECK(words.pictures[1].label == "f/2");
}

TEST_CASE("the background's disc is told as in a strip, and as large as it is on the print",
          "[papers][property]") {
    const scene::Scene scene = rehearsal::demo_scene("choir");
    const ClientFacts facts = facts_of(scene, {2, 4, 8});
    const ClientWords words = client_words(facts, {}, Units::metric);
    const double percent = facts.strip.frames[0].background_percent;
    const std::size_t wall = 2;
    std::smatch told;
    const std::string said = words.pictures[0].said[wall];
    REQUIRE(std::regex_search(said, told,
                              std::regex{"a disc of ([0-9.]+)\u00a0mm, ([0-9.]+)\u00a0% of"}));
    // Two digits that count: half a digit of at least ten.
    constexpr double rounding = 0.05;
    CHECK(std::stod(told[2]) == Approx(percent).epsilon(rounding));
    // 90 cm long, and so 60 cm high.
    CHECK(std::stod(told[1]) == Approx(percent / 100 * 600).epsilon(rounding));
}

TEST_CASE("of many names the first are told, and how many there are besides",
          "[papers][property]") {
    const ClientFacts facts =
        facts_of(rehearsal::demo_scene("reunion", {"camera.f_number=1.4"}), {1.4, 8, 16});
    const auto words = client_words(facts, {}, Units::metric);
    CHECK_THAT(words.pictures[0].said[2], Catch::Contains(" more."));
    CHECK(count(words.pictures[0].said[2], ", ") < 40);
}

TEST_CASE("a scene that is looked at in a size of its own has that to choose too",
          "[papers][property]") {
    scene::Scene scene = rehearsal::demo_scene("couple");
    CHECK(facts_of(scene, {1.2, 2, 4}).ways.size() == 3);
    scene.viewing = optics::PrintViewing{60, 80};
    const ClientFacts facts = facts_of(scene, {1.2, 2, 4});
    REQUIRE(facts.ways.size() == 4);
    CHECK(facts.own_way == 3);
    CHECK(client_words(facts, {}, Units::metric).ways[3].size ==
          "60\u00a0cm long, seen from 80\u00a0cm");
    scene.viewing = scene::PixelViewing{};
    CHECK(client_words(facts_of(scene, {1.2, 2, 4}), {}, Units::metric).ways[3].name ==
          "Pixel by pixel");
}

TEST_CASE("a page that would be too heavy has coarser pictures, and where no quality will do, it "
          "says what it would weigh",
          "[papers][property]") {
    const ClientFacts facts = facts_of(rehearsal::demo_scene("couple"), {1.2, 2, 4});
    const ClientPictures pictures = pictures_of(facts, noise(240, 160));
    const auto assets = client_assets();
    REQUIRE(assets);
    const auto at_best = client_page(facts, pictures, *assets, {});
    REQUIRE(at_best);
    CHECK(at_best->quality == page_qualities.front());

    const std::size_t a_little_less = at_best->html.size() - 1;
    const auto lighter = client_page(facts, pictures, *assets, {.most_bytes = a_little_less});
    REQUIRE(lighter);
    CHECK(lighter->quality == page_qualities[1]);
    CHECK(lighter->html.size() < a_little_less);

    const auto none = client_page(facts, pictures, *assets, {.most_bytes = 20'000});
    REQUIRE_FALSE(none);
    CHECK(none.error().bytes >= 20'000);
    CHECK(none.error().bytes < lighter->html.size());
}

TEST_CASE("a page speaks its language, and says which it is", "[papers][property]") {
    const ClientFacts facts = facts_of(rehearsal::demo_scene("couple"), {1.2, 2, 4});
    const std::string page = page_of(facts, {.language = german()});
    CHECK_THAT(page, Catch::Contains("<html lang=\"de\">") &&
                         Catch::Contains("f/1,2, wie geplant") && Catch::Contains("Im Album") &&
                         Catch::Contains("Etwas weich: Joon."));
    CHECK_THAT(page_of(facts), Catch::Contains("<html lang=\"en\">"));
    CHECK_THAT(page_of(facts, {.units = Units::imperial}),
               Catch::Contains("12 in long") || Catch::Contains("12\u00a0in long"));
}

TEST_CASE("without anybody to look at there is no closer look", "[papers][property]") {
    const ClientFacts facts = facts_of(rehearsal::demo_scene("couple"), {1.2, 2, 4});
    ClientPictures pictures = pictures_of(facts);
    pictures.looked_at.clear();
    for (ClientPicture& picture : pictures.pictures)
        picture = {.whole = picture.whole, .faces = {}, .places = {}};
    const auto page = client_page(facts, pictures, *client_assets(), {});
    REQUIRE(page);
    CHECK_THAT(page->html,
               !Catch::Contains("class=\"closer\"") && !Catch::Contains("data-face=\"0"));
    CHECK(count(page->html, "<img") == 3);
}

TEST_CASE("a page of four hundred people is light enough, with closer looks at some",
          "[papers][property]") {
    const ClientFacts facts = facts_of(group_of(400), {2, 5.6, 16});
    ClientPictures pictures = pictures_of(facts);
    pictures.looked_at.resize(100);
    for (ClientPicture& picture : pictures.pictures)
        picture.places.resize(100);
    const auto page = client_page(facts, pictures, *client_assets(), {});
    REQUIRE(page);
    CHECK(page->html.size() < most_page_bytes);
    CHECK(count(page->html, "<tr data-face=") == 3 * 100);
    CHECK(count(page->html, "<th scope=\"row\">") == 3 * 400);
}

TEST_CASE("where heads are kept as large, a picture says from where it is taken with which lens",
          "[papers][property]") {
    const scene::Scene scene = rehearsal::demo_scene("couple");  // 85 mm from 4.2 m
    const auto labels = [&](const std::vector<plan::StripPlace>& places, Leafing leafing) {
        const ClientFacts facts =
            client_facts(scene, plan::strip(scene, places, {scene.camera.f_number}), leafing);
        std::string all;
        for (const PictureWords& words : client_words(facts, {}, Units::metric).pictures)
            all += words.setting + '|' + words.label + '\n';
        return all;
    };
    CHECK(labels({{2.1, 42.5}, {4.2, 85}, {6.3, 127.5}}, Leafing::lenses) ==
          "42.5\u00a0mm|42.5\u00a0mm from 2.10\u00a0m\n"
          "85\u00a0mm|85\u00a0mm from 4.20\u00a0m, as planned\n"
          "127.5\u00a0mm|127.5\u00a0mm from 6.30\u00a0m\n");
    CHECK(labels({{3, 85}, {4.2, 85}, {6, 85}}, Leafing::distances) ==
          "3.00\u00a0m|3.00\u00a0m\n4.20\u00a0m|4.20\u00a0m, as planned\n"
          "6.00\u00a0m|6.00\u00a0m\n");
}
