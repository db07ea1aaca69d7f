// backrow card: its page says what the other verbs say of the same scene.

#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <memory>
#include <regex>
#include <string>

using namespace backrow::command;
using Catch::Contains;

namespace {

/// As poppler's pdftotext reads it, each run of spaces, no-break spaces and line breaks as one.
std::string text_of_pdf(const std::string& file) {
    const std::string command = "pdftotext -layout -enc UTF-8 '" + file + "' -";
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe{::popen(command.c_str(), "r"),
                                                               ::pclose};
    REQUIRE(pipe);
    std::string text;
    std::array<char, 4096> part{};
    while (const std::size_t got = std::fread(part.data(), 1, part.size(), pipe.get()))
        text.append(part.data(), got);
    return std::regex_replace(text, std::regex{"(\\s|\u00a0)+"}, " ");
}

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

/// As the table of faces writes it, which the tests of that table hold to its JSON.
std::string margin_of(const std::string& table, const std::string& name) {
    std::smatch match;
    const std::regex line{"\n" + name + " .*? (\\S+/\\S+|-) +\\d+  "};
    REQUIRE(std::regex_search(table, match, line));
    return match[1] == "-" ? "–" : match[1].str();
}

}  // namespace

TEST_CASE("every number of a card is that of faces, odds and tradeoff", "[command][property]") {
    const Folder folder;
    const std::string scene = demo("steps.toml");
    const std::string card = card_text(folder, scene, {"--language", "en"});
    const nlohmann::json faces = json_of("faces", scene);
    const std::string table = run(words("faces", scene)).out;

    for (const auto& face : faces["faces"]) {
        const auto name = face["name"].get<std::string>();
        const std::string line = fmt::format("{} {} {}", name, margin_of(table, name),
                                             face["verdict"].get<std::string>());
        CAPTURE(name, card);
        CHECK_THAT(card, Contains(line));
    }
    CHECK_THAT(card,
               Contains(fmt::format("at {:.2f} m", faces["focus"]["distance_m"].get<double>())));
    const nlohmann::json odds = json_of("odds", scene)["frames"];
    if (odds["p95"].is_null())
        CHECK_THAT(card, Contains("No number of frames"));
    else
        CHECK_THAT(card, Contains(fmt::format("{} ", odds["p95"].get<long>())));
    const nlohmann::json tradeoff =
        json_of("tradeoff", scene, {"-o", folder / "chart.png", "--lens", "85", "--widest", "1"});
    const std::string with_another = card_text(folder, scene, {"--lens", "85", "--language", "en"});
    for (const auto& lens : tradeoff["lenses"])
        if (lens["focal_length_mm"] == 85)
            CHECK_THAT(with_another, Contains(fmt::format("85 mm: from {:.2f} m",
                                                          lens["distance_m"].get<double>())));
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
                                         {"LIBGL_DRIVERS_PATH", "/nonexistent"}}});
    CHECK(ran.exit_code == 0);
    CHECK_THAT(ran.err, Contains("the card has no picture: "));
    CHECK_THAT(text_of_pdf(folder / "card.pdf"), Contains("there is no room here"));
}
