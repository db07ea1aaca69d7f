// backrow card: its page says what the other verbs say of the same scene.

#include "papers.h"
#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>
#include <string>

using namespace backrow::command;
using Catch::Contains;

namespace {

nlohmann::json json_of(const std::string& verb, const std::string& scene, const Words& more = {}) {
    Words all = words(verb, scene, {"--format", "json"});
    all.insert(all.end(), more.begin(), more.end());
    const Ran ran = run(all);
    REQUIRE(ran.exit_code == 0);
    return nlohmann::json::parse(ran.out);
}

std::string card_text(const Folder& folder, const std::string& scene, Words more = {}) {
    const std::string file = folder / "card.pdf";
    more.insert(more.end(), {"-o", file});
    const Ran ran = run(words("card", scene, more));
    REQUIRE(ran.err == "");
    REQUIRE(ran.exit_code == 0);
    REQUIRE(ran.out.empty());
    return text_of_pdf(file);
}

/// A card without its picture, which is not asked here and takes its time.
std::string text_of_card(const Folder& folder, const std::string& scene, Words more = {}) {
    const std::string file = folder / "card.pdf";
    more.insert(more.end(), {"-o", file});
    const Ran ran = run(words("card", scene, more),
                        {.environment = {{"__EGL_VENDOR_LIBRARY_DIRS", "/nonexistent"},
                                         {"LIBGL_DRIVERS_PATH", "/nonexistent"}}});
    REQUIRE(ran.exit_code == 0);
    return text_of_pdf(file);
}

double margin_m(const nlohmann::json& face, const char* side) {
    const nlohmann::json& margin = face[side];
    return margin.is_null() ? INFINITY : margin.get<double>();
}

std::string in_german(const std::string& verdict) {
    static const std::map<std::string, std::string> words{
        {"crisp", "gestochen"}, {"fine", "scharf"},           {"soft", "weich"},
        {"lost", "verloren"},   {"cut off", "abgeschnitten"}, {"hidden", "verdeckt"}};
    return words.at(verdict);
}

}  // namespace

TEST_CASE("every number of a card is that of faces, odds and tradeoff, in any language and units",
          "[command][property]") {
    const Folder folder;
    std::size_t turn = 0;
    for (const char* name : {"steps.toml", "theatre.toml", "kindergarten.toml", "couple.toml"})
        for (const Writing& writing : writings(turn++)) {
            const std::string scene = demo(name);
            Words options = writing.options();
            options.insert(options.end(), {"--lens", "105"});
            const std::string card = text_of_card(folder, scene, options);
            CAPTURE(name, card);
            const nlohmann::json faces = json_of("faces", scene);
            for (const auto& face : faces["faces"]) {
                const auto verdict = face["verdict"].get<std::string>();
                const double front_m = margin_m(face, "margin_front_m");
                const double back_m = margin_m(face, "margin_back_m");
                const std::string room = front_m + back_m == 0
                                             ? "–"
                                             : writing.room(front_m) + "/" + writing.room(back_m);
                const std::string line =
                    fmt::format("{} {} {}", face["name"].get<std::string>(), room,
                                writing.is_german ? in_german(verdict) : verdict);
                CHECK_THAT(lines_of_pdf(folder / "card.pdf"), Contains(line));
            }
            CHECK_THAT(card, Contains(writing.metres(faces["focus"]["distance_m"])));
            CHECK_THAT(card, Contains((writing.is_german ? "LW " : "EV ") +
                                      writing.figures(faces["exposure"]["scene_ev100"], 3)));
            const nlohmann::json frames = json_of("odds", scene)["frames"]["p95"];
            const auto told = [&](const char* english, const char* german) {
                return writing.is_german ? german : english;
            };
            if (frames.is_null())
                CHECK_THAT(card, Contains(told("No number of frames", "Keine Zahl von Aufnahmen")));
            else
                CHECK_THAT(
                    card,
                    Contains(fmt::format("{}{} ", told("Frames to take ", "Zahl der Aufnahmen "),
                                         frames.get<long>())) ||
                        Contains(fmt::format("{}{}, ",
                                             told("Frames to take ", "Zahl der Aufnahmen "),
                                             frames.get<long>())));
            const nlohmann::json tradeoff = json_of("tradeoff", scene,
                                                    {"-o", folder / "chart.png", "--lens", "105",
                                                     "--widest", "1", "--narrowest", "22"});
            const nlohmann::json& lens =
                *std::ranges::find(tradeoff["lenses"], 105, [](const nlohmann::json& carried) {
                    return carried["focal_length_mm"].get<double>();
                });
            const double from_m = lens["distance_m"];
            CHECK_THAT(card, Contains(fmt::format("105 mm: {} {}, {}", told("from", "aus"),
                                                  writing.metres(from_m), writing.paces(from_m))));
            if (lens["fine_from_f_number"].is_null())
                CHECK_THAT(card, Contains(told("not all fine", "bei keiner Blende alle")));
            else if (lens["fine_from_f_number"] > 1)
                CHECK_THAT(card, Contains(told("all fine from ", "alle scharf ")) &&
                                     Contains(' ' + writing.aperture(lens["fine_from_f_number"])));
            if (!lens["fine_to_f_number"].is_null() && lens["fine_to_f_number"] < 22)
                CHECK_THAT(card, Contains(told(" to ", " bis ") +
                                          writing.aperture(lens["fine_to_f_number"])));
        }
}

TEST_CASE("stopped down as a card says for somebody out of line, everybody has ten centimetres",
          "[command][property]") {
    const Folder folder;
    const std::string card = text_of_card(folder, demo("choir.toml"), {"--language", "en"});
    std::smatch told;
    REQUIRE(std::regex_search(card, told,
                              std::regex{R"(stop down to f/([\d.]+): 1/(\d+) s, ISO (\d+))"}));
    const nlohmann::json faces =
        json_of("faces", demo("choir.toml"),
                {"--set", "camera.f_number=" + told[1].str(), "--set",
                 fmt::format("camera.shutter_s={}", 1 / std::stod(told[2])), "--set",
                 "camera.iso=" + told[3].str()});
    for (const auto& face : faces["faces"]) {
        CHECK(margin_m(face, "margin_front_m") >= 0.1);
        CHECK(margin_m(face, "margin_back_m") >= 0.1);
    }
    CHECK(std::abs(faces["exposure"]["stops_over"].get<double>()) <= 0.2);
}

TEST_CASE(
    "what a card sets suits the light, and where the scene does not it is put right as advise "
    "does",
    "[command][property]") {
    const Folder folder;
    const std::string file =
        folder.write("duo.toml", "[camera]\nfocal_length_mm = 50\nf_number = 4\ndistance_m = 4\n"
                                 "shutter_s = 0.01\n[[row]]\npeople = [\"Ana\", \"Ben\"]\n");
    const std::string card = card_text(folder, file, {"--language", "en"});
    const std::string advice = run(words("advise", file)).out;
    std::smatch set;
    REQUIRE(std::regex_search(card, set, std::regex{R"(f/4 (1/\d+) s ISO (\d+))"}));
    const Ran faces = run(words(
        "faces", file,
        {"--set", "camera.shutter_s=" + set[1].str(), "--set", "camera.iso=" + set[2].str()}));
    CHECK_THAT(faces.out, Contains("right for EV 12"));
}

TEST_CASE("a card speaks German where it is asked to, by option or by the locale",
          "[command][property]") {
    const Folder folder;
    const std::string asked = card_text(folder, demo("couple.toml"), {"--language", "de"});
    CHECK_THAT(asked, Contains("f/1,2") && Contains("Zum Abschreiten") && Contains("4,20 m"));
    const std::string file = folder / "by-locale.pdf";
    const Ran ran = run(words("card", demo("couple.toml"), {"-o", file}),
                        {.environment = {{"LC_ALL", "de_DE.UTF-8"}}});
    REQUIRE(ran.exit_code == 0);
    CHECK(text_of_pdf(file) == asked);
}

TEST_CASE("a card in feet has feet, and paces stay", "[command][property]") {
    const Folder folder;
    CHECK_THAT(card_text(folder, demo("couple.toml"), {"--units", "imperial", "--language", "en"}),
               Contains("13 ft 9 in, 5½ paces"));
}

TEST_CASE("a card is a PDF, a drawing of vectors or a picture, as its name ends",
          "[command][property]") {
    const Folder folder;
    for (const auto& [name, begins] :
         {std::pair{"a.pdf", "%PDF"}, std::pair{"b.svg", "<?xml"}, std::pair{"c.png", "\x89PNG"}}) {
        CHECK(run(words("card", demo("couple.toml"), {"-o", folder / name, "--paper", "phone"}))
                  .exit_code == 0);
        CHECK(text_of(folder / name).starts_with(begins));
    }
}

// U+10FFFD is of private use: no font has it.
TEST_CASE("a name that no font here can letter is told, and what to install",
          "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("x.toml", "[[row]]\npeople = [\"Ana \U0010FFFD\"]\n");
    const Ran ran = run(words("card", scene, {"-o", folder / "card.svg"}));
    CHECK(ran.exit_code == 0);
    CHECK_THAT(ran.err,
               Contains("has all letters of `Ana \U0010FFFD`") && Contains("fonts-noto-core"));
    const Ran table = run(words("faces", scene, {}));
    CHECK(table.err.empty());
}

TEST_CASE("a card that cannot be made leaves nothing, and it is said why", "[command][property]") {
    const Folder folder;
    const auto refused = [&](const Words& more, int code, const std::string& why) {
        const Ran ran = run(words("card", demo("couple.toml"), more));
        CHECK(ran.exit_code == code);
        CHECK_THAT(ran.err, Contains(why));
        CHECK(folder.entries().empty());
    };
    refused({}, 2, "--output");
    refused({"-o", folder / "card.doc"}, 2, "must end in .pdf or .svg or .png");
    refused({"-o", folder / "card.pdf", "--paper", "napkin"}, 2, "napkin");
    refused({"-o", folder / "card.pdf", "--language", "xx"}, 2, "xx");
    refused({"-o", folder / "card.pdf", "--set", "camera.f_number=0"}, 1, "f_number");
    refused({"-o", folder / "no/card.pdf"}, 3, "no folder");
}

TEST_CASE("a card of as many people as a scene may hold is made, and says for how many there is no "
          "room",
          "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("crowd.toml", two_thousand_people());
    const Ran ran = run(words("card", scene, {"-o", folder / "card.pdf", "--language", "en"}),
                        {.environment = {{"__EGL_VENDOR_LIBRARY_DIRS", "/nonexistent"},
                                         {"LIBGL_DRIVERS_PATH", "/nonexistent"}},
                         .limit = std::chrono::seconds{300}});
    CHECK(ran.exit_code == 0);
    CHECK_THAT(ran.err, Contains("the card has no picture: "));
    CHECK_THAT(text_of_pdf(folder / "card.pdf"), Contains("there is no room here"));
}
