#include "papers.h"
#include "pictures.h"
#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <csignal>
#include <cstdlib>
#include <regex>

// backrow strip, from the command line to sheet and table.

namespace backrow::command {
namespace {

using Catch::Contains;
using nlohmann::json;

// Two people and not much round them: quick to draw.
const std::string two_people = R"(
[camera]
pixels = [3000, 2000]
distance_m = 6.0
f_number = 2.0
[focus]
on = "Odile"
[[row]]
people = ["Odile", "Bram"]
[[person]]
name = "Bram"
back_m = 0.5
)";

Ran strip(const std::string& scene, const std::string& sheet, Words more = {}) {
    more.insert(more.end(), {"-o", sheet, "--width", "700", "--samples", "4"});
    return run(words("strip", scene, more));
}

json strip_as_json(const std::string& scene, const std::string& sheet, Words more = {}) {
    more.insert(more.end(), {"--format", "json"});
    const Ran ran = strip(scene, sheet, more);
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    CHECK(ran.err.empty());
    return json::parse(ran.out);
}

struct Box {
    int left, top, width, height;
};

Box box_of(const json& numbers) {
    return {numbers[0], numbers[1], numbers[2], numbers[3]};
}

long pixels_apart(const Image<Rgb8>& sheet, const Box& box, const Image<Rgb8>& picture) {
    REQUIRE(picture.width_px() == box.width);
    REQUIRE(picture.height_px() == box.height);
    long apart = 0;
    for (int y = 0; y < box.height; ++y)
        for (int x = 0; x < box.width; ++x)
            apart += sheet.at(box.left + x, box.top + y) != picture.at(x, y) ? 1 : 0;
    return apart;
}

}  // namespace

// Tolerance: none, the same samples of the same stage; but for the outline of the face, two pixels
// wide and no longer than the frame's own border.
TEST_CASE("every frame of a strip is what preview makes of the same setting",
          "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("two.toml", two_people);
    const json told = strip_as_json(scene, folder / "sheet.png", {"--f-numbers", "2,5.6"});
    const Image<Rgb8> sheet = picture_from_png(folder / "sheet.png");
    CHECK(told["sheet"]["width_px"] == sheet.width_px());
    CHECK(told["sheet"]["height_px"] == sheet.height_px());
    REQUIRE(told["frames"].size() == 2);
    for (const json& frame : told["frames"]) {
        const Box box = box_of(frame["frame_box"]);
        const std::string f_number = std::to_string(frame["f_number"].get<double>());
        const Ran ran = run(words("preview", scene,
                                  {"-o", folder / "alone.png", "--width", std::to_string(box.width),
                                   "--samples", "4", "--set", "camera.f_number=" + f_number}));
        REQUIRE(ran.exit_code == 0);
        const long outline_px = 4L * (box.width + box.height);
        const long apart = pixels_apart(sheet, box, picture_from_png(folder / "alone.png"));
        CHECK(apart <= outline_px);
        CHECK(10 * outline_px < static_cast<long>(box.width) * box.height);
        CHECK(frame["samples"] == 4);
    }
}

TEST_CASE("a strip's table agrees with the table of faces, from every place and lens",
          "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("two.toml", two_people);
    const json told = strip_as_json(scene, folder / "sheet.png",
                                    {"--distances", "6,9", "--keep-framing", "--f-numbers", "2,4"});
    REQUIRE(told["frames"].size() == 4);
    CHECK(told["framing_kept"] == true);
    for (const json& frame : told["frames"]) {
        const auto set = [&](const std::string& key, const char* name) {
            return key + "=" + frame[name].dump();
        };
        const Ran ran = run(words("faces", scene,
                                  {"--format", "json", "--set", set("camera.f_number", "f_number"),
                                   "--set", set("camera.distance_m", "distance_m"), "--set",
                                   set("camera.focal_length_mm", "focal_length_mm")}));
        REQUIRE(ran.exit_code == 0);
        const json bram = json::parse(ran.out)["faces"][1];
        CAPTURE(frame.dump());
        CHECK(frame["worst_face"] == "Bram");
        CHECK(frame["worst_blur_um"].get<double>() ==
              Approx(bram["predicted_blur_um"].get<double>()));
        CHECK(frame["worst_view_arcmin"].get<double>() ==
              Approx(bram["view_arcmin"].get<double>()));
        CHECK(frame["grade"] == bram["grade"]);
        CHECK(frame["faces_in_frame"] == 2);
        // Tolerance: the design's quarter of a pixel; the blur is at least twice that.
        CHECK(bram["predicted_blur_px"] > 0.5);
        CHECK(std::abs(frame["worst_measured_blur_px"].get<double>() -
                       bram["predicted_blur_px"].get<double>()) <= 0.25);
    }
    CHECK(told["frames"][2]["row"] == 1);
    CHECK(told["frames"][2]["column"] == 0);
    CHECK(told["frames"][2]["focal_length_mm"].get<double>() > 70);
}

TEST_CASE("a strip without any list stops down from the scene's own aperture",
          "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("two.toml", two_people);
    const Ran text =
        run(words("strip", scene, {"-o", folder / "a.png", "--samples", "2", "--width", "880"}));
    CHECK(text.exit_code == 0);
    for (const std::string told : {"f/2*", "f/2.8", "f/4", "f/5.6", "3 stops", "Bram"})
        CHECK_THAT(text.out, Contains(told));
    const Ran csv = strip(scene, folder / "b.png",
                          {"--focal-lengths", "35,50", "--keep-framing", "--format", "csv"});
    CHECK(csv.exit_code == 0);
    CHECK(csv.out.starts_with("row,column,f_number,distance_m,focal_length_mm,"));
    CHECK(folder.entries() == std::vector<std::string>{"a.png", "b.png", "two.toml"});
}

TEST_CASE("a strip on paper says what its table says, in letters of seven points and more",
          "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("two.toml", two_people);
    const json told = strip_as_json(scene, folder / "sheet.pdf", {"--f-numbers", "2,5.6"});
    const std::string page = text_of_pdf(folder / "sheet.pdf");
    for (const json& frame : told["frames"]) {
        CAPTURE(page, frame.dump());
        CHECK_THAT(page,
                   Contains(fmt::format("Bram {}, {:.1f} arcmin", frame["grade"].get<std::string>(),
                                        frame["worst_view_arcmin"].get<double>())));
        CHECK_THAT(page, Contains(fmt::format("background blur {:.2f} %",
                                              frame["background_blur_percent"].get<double>())));
    }
    // Lines of small print stand 17/12 of their letters apart.
    const PageSize size = page_of_pdf(folder / "sheet.pdf");
    const json& sheet = told["sheet"];
    CHECK(size.width_pt / size.height_pt ==
          Approx(sheet["width_px"].get<double>() / sheet["height_px"].get<double>()).epsilon(1e-3));
    const std::string boxes = folder / "boxes.html";
    REQUIRE(std::system(
                ("pdftotext -bbox '" + (folder / "sheet.pdf") + "' '" + boxes + "'").c_str()) == 0);
    const std::string words_of_page = text_of(boxes);
    double smallest_pt = INFINITY;
    const std::regex word{R"re(yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)")re"};
    for (std::sregex_iterator at{words_of_page.begin(), words_of_page.end(), word}, end; at != end;
         ++at)
        smallest_pt = std::min(smallest_pt, std::stod((*at)[2]) - std::stod((*at)[1]));
    // A word's box is as high as the font's ascent and descent, 1.164 of its size.
    CHECK(smallest_pt == Approx(7 * 1.164).epsilon(0.02));
}

TEST_CASE("a strip that cannot be is refused in a line and leaves nothing", "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("two.toml", two_people);
    struct Wrong {
        Words words;
        std::string told;
        std::string sheet = "a.png";
    };
    for (const Wrong& wrong : {
             Wrong{{}, "must end in .png or .pdf", "a.jpg"},
             Wrong{{"--f-numbers", "2"}, "one frame is no strip"},
             Wrong{{"--f-numbers", "2,,4"}, "`` is not a number from 0.5 to 128"},
             Wrong{{"--f-numbers", "2,wide"}, "`wide` is not a number"},
             Wrong{{"--f-numbers", "nan,2"}, "`nan` is not a number"},
             Wrong{{"--f-numbers", "4,4"}, "names 4 twice"},
             Wrong{{"--f-numbers", "1,2,3,4,5,6,7,8,9"}, "at most 8 numbers"},
             Wrong{{"--distances", "0.2,6"}, "among the people"},
             Wrong{{"--distances", "6,8", "--focal-lengths", "35,50"}, "exclude each other"},
             Wrong{{"--keep-framing"}, "--keep-framing needs"},
             Wrong{{"--distances", "6,300", "--keep-framing"}, "would need a lens of"},
             Wrong{{"--focal-lengths", "2,50", "--keep-framing"}, "cannot keep the framing"},
             Wrong{{"--focal-lengths", "50,400"}, "nobody's face lies whole in the frame"},
             Wrong{{"--f-numbers", "2,2.2,2.5,2.8"}, "too narrow to read 4 columns"},
         }) {
        const Ran ran = strip(scene, folder / wrong.sheet, wrong.words);
        CAPTURE(wrong.told, ran.err);
        CHECK(ran.exit_code == 2);
        CHECK_THAT(ran.err, Contains(wrong.told));
        CHECK(ran.out.empty());
    }
    const Ran away =
        strip(scene, folder / "a.png", {"--set", "camera.aim=[20, 1, 0]", "--f-numbers", "2,4"});
    CHECK(away.exit_code == 1);
    CHECK_THAT(away.err, Contains("two.toml: from 6 m with 85 mm nobody's face"));
    CHECK(strip(scene, folder / "none/a.png", {"--f-numbers", "2,4"}).exit_code == 3);
    CHECK(folder.entries() == std::vector<std::string>{"two.toml"});
}

TEST_CASE("Ctrl-C stops a long strip and leaves nothing", "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("two.toml", two_people);
    bool sent = false;
    const auto start = std::chrono::steady_clock::now();
    const Ran ran = run(
        words("strip", scene, {"-o", folder / "a.png", "--width", "6000", "--samples", "65536"}),
        {.meanwhile = [&](pid_t program) {
            if (!sent && std::chrono::steady_clock::now() - start > std::chrono::seconds{2}) {
                sent = true;
                ::kill(program, SIGINT);
            }
        }});
    CHECK(ran.exit_code == 130);
    CHECK(ran.out.empty());
    CHECK(ran.err == "backrow: interrupted; nothing was written\n");
    CHECK(folder.entries() == std::vector<std::string>{"two.toml"});
}

}  // namespace backrow::command
