// backrow client: what it refuses, and what a page has in it. What a page does in a browser is
// tested by tests/client_page/client_page_test.py.

#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <regex>
#include <string>
#include <vector>

using namespace backrow::command;
using Catch::Contains;

namespace {

const Words small{"--width", "160", "--samples", "4", "--language", "en"};

Ran make(const Folder& folder, const std::string& scene, Words more) {
    more.insert(more.end(), {"-o", folder / "page.html"});
    more.insert(more.end(), small.begin(), small.end());
    return run(words("client", scene, more));
}

/// A small camera, so that the faces have few pixels.
std::string duo(const Folder& folder, const std::string& camera = "f_number = 2.8\n") {
    return folder.write("duo.toml", "[camera]\nfocal_length_mm = 50\ndistance_m = 4\n"
                                    "pixels = [600, 400]\n" +
                                        camera +
                                        "[focus]\non = \"Ana\"\n[[row]]\npeople = [\"Ana\"]\n"
                                        "[[row]]\nback_m = 0.8\nup_m = 0.3\npeople = [\"Ben\"]\n");
}

std::vector<std::string> settings_of(const std::string& page) {
    static const std::regex heading{"<h3>([^<]+)</h3>"};
    std::vector<std::string> settings;
    for (std::sregex_iterator at{page.begin(), page.end(), heading}, end; at != end; ++at)
        settings.push_back((*at)[1]);
    return settings;
}

}  // namespace

TEST_CASE("a page that cannot be made leaves nothing, and it is said why", "[command][property]") {
    const Folder folder;
    const std::string scene = demo("couple.toml");
    const auto refused = [&](Words more, int code, const std::string& why) {
        const Ran ran = run(words("client", scene, more));
        CHECK(ran.exit_code == code);
        CHECK_THAT(ran.err, Contains(why));
        CHECK(folder.entries().empty());
    };
    const auto page = folder / "page.html";
    refused({}, 2, "--output");
    refused({"-o", folder / "page.pdf"}, 2, "must end in .html");
    refused({"-o", folder / "no/page.html"}, 3, "no folder");
    refused({"-o", page, "--apertures", "2,4"}, 2, "--apertures takes at least 3 numbers");
    refused({"-o", page, "--apertures", "1,2,3,4,5,6,7,8"}, 2,
            "--apertures takes at most 7 numbers");
    refused({"-o", page, "--apertures", "2,4,2"}, 2, "--apertures names 2 twice");
    refused({"-o", page, "--apertures", "2,4,8", "--lenses", "35,50,85"}, 2,
            "--apertures, --distances and --lenses exclude each other");
    refused({"-o", page, "--distances", "4,5,6", "--lenses", "35,50,85"}, 2,
            "--distances and --lenses exclude each other");
    refused({"-o", page, "--keep-framing"}, 2, "--keep-framing needs --distances");
    refused({"-o", page, "--distances", "0.1,5,6"}, 2, "--distances");
    refused({"-o", page, "--distances", "0.31,5,6"}, 2, "among the people");
    refused({"-o", page, "--width", "4000"}, 2, "no side is longer than 4096");
    refused({"-o", page, "--language", "xx"}, 2, "xx");
    refused({"-o", page, "--set", "camera.f_number=0"}, 1, "f_number");
    refused({"-o", page, "--set", "camera.aim=[0, 9, 0]"}, 1, "nobody's face lies whole");
}

TEST_CASE("a page leafs from the widest aperture in rising order, and knows which is planned",
          "[command][property]") {
    const Folder folder;
    const Ran ran = make(folder, duo(folder), {"--apertures", "f/8,2.8,4"});
    CHECK(ran.err == "");
    REQUIRE(ran.exit_code == 0);
    CHECK(ran.out.empty());
    CHECK(settings_of(text_of(folder / "page.html")) ==
          std::vector<std::string>{"f/2.8, as planned", "f/4", "f/8"});
}

TEST_CASE("a page leafs through lenses from where heads stay as large, as a strip does",
          "[command][property]") {
    const Folder folder;
    const std::string scene = duo(folder);
    REQUIRE(make(folder, scene, {"--lenses", "35,50,85", "--keep-framing"}).exit_code == 0);
    const Ran strip = run(words("strip", scene,
                                {"-o", folder / "strip.png", "--focal-lengths", "35,50,85",
                                 "--keep-framing", "--samples", "1", "--format", "json"}));
    REQUIRE(strip.exit_code == 0);
    std::vector<std::string> expected;
    const auto said = nlohmann::json::parse(strip.out);
    for (const auto& frame : said["frames"])
        expected.push_back(fmt::format("{:g}\u00a0mm from {:.2f}\u00a0m{}",
                                       frame["focal_length_mm"].get<double>(),
                                       frame["distance_m"].get<double>(),
                                       frame["focal_length_mm"] == 50 ? ", as planned" : ""));
    CHECK(settings_of(text_of(folder / "page.html")) == expected);
}
