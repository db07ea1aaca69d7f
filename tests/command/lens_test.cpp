#include "running.h"

#include "measure/synthetic_edge.h"
#include "photographs/frame_writing.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace backrow::command {
namespace {

using Catch::Contains;
using Catch::Matchers::WithinRel;
using measure::SyntheticEdge;

/// As a converter exports it: linear light in sixteen bits.
std::string linear_png(const Image<float>& light) {
    Image<std::uint16_t> numbers(light.width_px(), light.height_px());
    for (std::size_t i = 0; i < light.pixels().size(); ++i)
        numbers.pixels()[i] = static_cast<std::uint16_t>(std::lround(65535 * light.pixels()[i]));
    return photographs::deep_png_of(numbers);
}

const SyntheticEdge edge{.width_px = 100, .height_px = 160, .sigma_px = 1.2};

}  // namespace

TEST_CASE("lens measure says where an edge is and how sharp", "[command][measured]") {
    const Folder folder;
    const std::string frame = folder.write(
        "frame.png", photographs::png_with_notes(linear_png(drawn(edge)), 1, {14, 10}, {85, 1}));
    for (const Words& box : {Words{}, Words{"--box", "10,0,80,160"}}) {
        Words words{"lens", "measure", frame, "--linear", "--format", "json"};
        words.insert(words.end(), box.begin(), box.end());
        const Ran ran = run(words);
        CAPTURE(ran.err);
        REQUIRE(ran.exit_code == 0);
        CHECK(ran.err.empty());
        const auto json = nlohmann::json::parse(ran.out);
        REQUIRE(json["edges"].size() == 1);
        const auto& found = json["edges"][0];
        CHECK(found["image"] == frame);
        CHECK(found["f_number"] == 1.4);
        CHECK(found["focal_length_mm"] == 85);
        CHECK_THAT(found["angle_deg"].get<double>(), WithinRel(5.0, 0.01));
        CHECK_THAT(found["mtf50_cy_per_px"].get<double>(), WithinRel(mtf50_of(edge), 0.02));
        CHECK(found["mtf"][0] == nlohmann::json{0.0, 1.0});
        if (!box.empty())
            CHECK(found["box"] == nlohmann::json{10, 0, 80, 160});
    }
    const Ran text = run({"lens", "measure", frame, "--linear"});
    CHECK_THAT(text.out, Contains("85 mm, f/1.4: middle 0.1"));
    const Ran csv = run({"lens", "measure", frame, "--linear", "--format", "csv"});
    CHECK_THAT(csv.out, Contains("mtf50_cy_per_px") && Contains("upright"));
    CHECK(folder.entries() == std::vector<std::string>{"frame.png"});
}

TEST_CASE("lens measure refuses in one line, and measures nothing then", "[command][property]") {
    const Folder folder;
    const std::string good = folder.write("good.png", linear_png(drawn(edge)));
    SyntheticEdge burnt = edge;
    burnt.bright = 1;
    const std::string white = folder.write("white.png", linear_png(drawn(burnt)));
    const std::string grey = folder.write("grey.png", linear_png(Image<float>(80, 80, 0.5f)));
    const std::string text = folder.write("text.png", "no picture");
    const auto check = [&](const Words& more, int exit_code, const std::string& said) {
        Words words{"lens", "measure", "--linear"};
        words.insert(words.end(), more.begin(), more.end());
        const Ran ran = run(words);
        CAPTURE(more);
        CHECK(ran.exit_code == exit_code);
        CHECK(ran.out.empty());
        CHECK_THAT(ran.err, Contains(said));
    };
    check({good, text}, 1, "text.png: is not a PNG, JPEG, BMP or TGA picture; export it");
    check({folder / "none.png"}, 1, "none.png: cannot be read; check that it is there");
    check({grey}, 1, "grey.png: no straight edge that leans by 2° to 20° was found; photograph");
    check({white}, 1, "white.png: of 1 edges none can be measured (1 clipped)");
    check({white, "--box", "0,0,100,160"}, 1,
          "white.png: the edge in box 0,0,100,160 is clipped: black or white without detail");
    check({good, "--box", "90,0,80,160"}, 1,
          "good.png: box 90,0,80,160 reaches beyond the picture; it has 100 × 160 pixels");
    check({good, "--box", "0,0,2147483647,2147483647"}, 1, "reaches beyond the picture");
    check({good, "--box", "0,0,8,8"}, 1, "is too short");
    for (const char* box :
         {"1,2,3", "1,2,3,4,5", "a,b,c,d", "-1,0,9,9", "0,0,0,9", "1.5,0,9,9", "0,0,99999999999,9"})
        check({good, "--box", box}, 2, "is no box; write left, top, width and height in pixels");
    check({}, 2, "IMAGE is required");
}

TEST_CASE("lens chart writes a page of PDF, and nothing where it may not", "[command][property]") {
    const Folder folder;
    const Ran ran = run({"lens", "chart", "-o", folder / "chart.pdf"});
    CHECK(ran.exit_code == 0);
    CHECK(text_of(folder / "chart.pdf").starts_with("%PDF"));
    CHECK(run({"lens", "chart", "-o", folder / "chart.png"}).exit_code == 2);
    CHECK(run({"lens", "chart", "-o", folder / "none/chart.pdf"}).exit_code == 3);
    CHECK(folder.entries() == std::vector<std::string>{"chart.pdf"});
}

TEST_CASE("lens show says from which opening a lens is good, and draws it", "[command][property]") {
    const Folder folder;
    const Ran ran = run({"lens", "show", "difficult-fifty", "-o", folder / "lens.pdf"});
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    CHECK_THAT(ran.out, Contains("Difficult fifty, 50 mm f/1.2"));
    CHECK_THAT(ran.out, Contains("Crisp: the middle from f/1.4"));
    CHECK(text_of(folder / "lens.pdf").starts_with("%PDF-"));

    const Ran json = run({"lens", "show", "difficult-fifty", "--format", "json"});
    const auto told = nlohmann::json::parse(json.out);
    // Stopped down by two stops the middle's glow, all that there is, is an eighth as wide [SMITH].
    const auto middle_um = [&](std::size_t opening) {
        return told["openings"][opening]["places"][0]["blur_um"].get<double>();
    };
    CHECK(told["openings"][0]["f_number"] == 1.2);
    CHECK(told["openings"][2]["f_number"] == 2);
    CHECK_THAT(middle_um(0) / middle_um(2), WithinRel(std::pow(2 / 1.2, 3), 0.01));

    const Ran unknown = run({"lens", "show", "nobodys-lens", "-o", folder / "none.png"});
    CHECK(unknown.exit_code == 1);
    CHECK(folder.entries() == std::vector<std::string>{"lens.pdf"});
}

TEST_CASE("the errors of a lens follow from what its profile says was measured",
          "[command][property]") {
    const Folder folder;
    std::string text =
        "title = \"Tested by others\"\nfocal_length_mm = 50\nwidest_f_number = 1.8\n";
    // The sharper the farther it is stopped down, and the softer the farther out.
    for (const auto& [f_number, middle] : {std::pair{1.8, 40.0}, {2.8, 75.0}, {4.0, 90.0}})
        for (const double height : {0.0, 0.4, 0.8})
            text += "[[measured]]\nf_number = " + std::to_string(f_number) +
                    "\nimage_height = " + std::to_string(height) +
                    "\nmtf50_cy_per_mm = " + std::to_string(middle * (1 - 0.5 * height * height)) +
                    "\n";
    const std::string measured = folder.write("measured.toml", text);
    const Ran shown = run({"lens", "show", measured});
    CAPTURE(shown.err);
    REQUIRE(shown.exit_code == 0);
    CHECK_THAT(shown.out, Contains("fitted from what was measured, ± two standard errors: "
                                   "spherical aberration +0.0"));

    const std::string fitted = folder / "fitted.toml";
    const Ran fit = run({"lens", "fit", measured, "-o", fitted});
    CAPTURE(fit.err);
    REQUIRE(fit.exit_code == 0);
    CHECK_THAT(fit.out, Contains("Tested by others: 50 mm f/1.8, from 9 measurements"));
    CHECK_THAT(text_of(fitted),
               Contains("spherical_dpt") && Contains("# ±") && Contains("[[measured]]"));
    // Once they are written nothing is fitted any more.
    const Ran again = run({"lens", "fit", fitted, "-o", folder / "again.toml"});
    CHECK(again.exit_code == 1);
    CHECK_THAT(again.err, Contains("fitted.toml: has errors of the lens already; take out"));
    const Ran nothing = run({"lens", "fit", folder.write("bare.toml", "widest_f_number = 2\n"),
                             "-o", folder / "again.toml"});
    CHECK(nothing.exit_code == 1);
    CHECK_THAT(nothing.err, Contains("bare.toml: says of no measurement; write"));
    CHECK(folder.entries() ==
          std::vector<std::string>{"bare.toml", "fitted.toml", "measured.toml"});
}

TEST_CASE("lens fit asks for what the frames lack and leaves nothing behind",
          "[command][property]") {
    const Folder folder;
    const std::string frame = folder.write("frame.png", linear_png(drawn(edge)));
    const std::string profile = folder / "lens.toml";
    const Ran silent = run({"lens", "fit", frame, "--linear", "-o", profile});
    CHECK(silent.exit_code == 1);
    CHECK_THAT(silent.err, Contains("no f-number is noted") && Contains("--f-number"));
    CHECK_THAT(silent.err, Contains("no focal length is noted"));

    const Ran few = run({"lens", "fit", frame, "--linear", "-o", profile, "--f-number", "1.4",
                         "--focal-length", "50"});
    CHECK(few.exit_code == 1);
    CHECK_THAT(few.err, Contains("too few edges"));

    const Ran twice =
        run({"lens", "fit", frame, "-o", profile, "--f-number", "1.4", "--f-number", "2"});
    CHECK(twice.exit_code == 2);
    CHECK(folder.entries() == std::vector<std::string>{"frame.png"});
}

}  // namespace backrow::command
