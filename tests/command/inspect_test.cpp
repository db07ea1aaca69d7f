#include "pictures.h"
#include "running.h"

#include "measure/detail_of_all_sizes.h"

#include "base/colour.h"
#include "base/image.h"
#include "base/image_files.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace backrow::command {
namespace {

using Catch::Contains;
using Json = nlohmann::json;

/// Photographs in Debian's packages python3-skimage, python3-imageio and opencv-doc.
const std::string of_skimage = "/usr/lib/python3/dist-packages/skimage/data/";
const std::string of_imageio = "/usr/lib/python3/dist-packages/imageio/resources/images/";
const std::string of_opencv = "/usr/share/doc/opencv-doc/examples/data/";

bool is_there(const std::string& photograph) {
    if (std::filesystem::exists(photograph))
        return true;
    WARN("not looked at, for its package is not installed: " << photograph);
    return false;
}

/// Half as large, so that it is sharp, and then blurred by a disc.
Image<Rgb8> halved_and_blurred(const Image<Rgb8>& photograph, double disc_px) {
    Image<float> light(photograph.width_px() / 2, photograph.height_px() / 2);
    for (int y = 0; y < light.height_px(); ++y)
        for (int x = 0; x < light.width_px(); ++x)
            for (const int right : {0, 1})
                for (const int down : {0, 1}) {
                    const Rgb8& pixel = photograph.at(2 * x + right, 2 * y + down);
                    light.at(x, y) +=
                        linear_from_srgb((2 * pixel.r + 5 * pixel.g + pixel.b) / (8 * 255.0f)) / 4;
                }
    if (disc_px > 0)
        light = measure::blurred_by_disc(light, disc_px);
    Image<Rgb8> shown(light.width_px(), light.height_px());
    std::ranges::transform(light.pixels(), shown.pixels().begin(), [](float one) {
        const auto step = static_cast<std::uint8_t>(std::lround(255 * srgb_from_linear(one)));
        return Rgb8{step, step, step};
    });
    return shown;
}

}  // namespace

TEST_CASE(
    "in photographs that Debian's packages carry faces are found, and none where there is none",
    "[command][measured]") {
    for (const std::string& folder : {of_skimage, of_imageio}) {
        const std::string astronaut = folder + "astronaut.png";
        if (!is_there(astronaut))
            continue;
        const Ran ran = run({"inspect", astronaut, "--use", "pixels", "--format", "json"});
        CAPTURE(ran.err);
        REQUIRE(ran.exit_code == 0);
        const Json faces = Json::parse(ran.out)["frames"][0]["faces"];
        REQUIRE(faces.size() == 1);
        const Json& head = faces[0]["head"];
        // Her pupils are at (205, 110) and (246, 112), by eye.
        CHECK(head[0].get<double>() + head[2].get<double>() / 2 == Approx(225).margin(10));
        CHECK(head[1].get<double>() + head[3].get<double>() / 2 == Approx(111).margin(12));
        CHECK(faces[0]["eyes"] != "shut");
        CHECK(faces[0]["blurred_by"] != "movement");
    }
    // A player who laughs, with a head of some 55 px, and another from the side.
    if (const std::string players = of_opencv + "basketball1.png"; is_there(players)) {
        const Ran ran = run({"inspect", players, "--use", "pixels", "--format", "json"});
        REQUIRE(ran.exit_code == 0);
        const Json faces = Json::parse(ran.out)["frames"][0]["faces"];
        REQUIRE(faces.size() == 1);
        CHECK(faces[0]["head"][0].get<double>() + faces[0]["head"][2].get<double>() / 2 ==
              Approx(90).margin(10));
        CHECK(faces[0]["eyes"] != "shut");
        CHECK(faces[0]["blurred_by"] != "movement");
    }
    // Some have animals that look at the camera, a robot and painted faces.
    std::vector<std::string> others{of_skimage + "camera.png", of_skimage + "chelsea.png",
                                    of_skimage + "coffee.png", of_skimage + "rocket.jpg",
                                    of_skimage + "coins.png",  of_imageio + "chelsea.png"};
    const std::vector<std::string> of_opencv_doc{
        "aero1.jpg",      "apple.jpg",  "baboon.jpg",       "building.jpg",     "butterfly.jpg",
        "chicky_512.png", "fruits.jpg", "graf1.png",        "home.jpg",         "leuvenA.jpg",
        "ml.png",         "orange.jpg", "rubberwhale1.png", "squirrel_cls.jpg", "starry_night.jpg",
        "stuff.jpg",      "sudoku.png"};
    if (is_there(of_opencv))
        for (const std::string& name : of_opencv_doc)
            others.push_back(of_opencv + name);
    for (const std::string& other : others)
        if (is_there(other)) {
            const Ran ran = run({"inspect", other});
            CAPTURE(other);
            CHECK(ran.exit_code == 1);
            CHECK_THAT(ran.err, Contains("no face was found"));
        }
}

TEST_CASE("what is claimed of a real face that was blurred is so", "[command][measured]") {
    const std::string astronaut = of_skimage + "astronaut.png";
    if (!is_there(astronaut))
        return;
    const Folder folder;
    for (const double disc_px : {0.0, 2.0, 3.5, 5.0}) {
        const auto bytes = png_bytes(halved_and_blurred(picture_from_png(astronaut), disc_px));
        const std::string file =
            folder.write("face.png", {reinterpret_cast<const char*>(bytes.data()), bytes.size()});
        const Ran ran =
            run({"inspect", file, "--box", "87,16,48,71", "--use", "pixels", "--format", "json"});
        CAPTURE(disc_px, ran.err, ran.out);
        REQUIRE(ran.exit_code == 0);
        const Json faces = Json::parse(ran.out)["frames"][0]["faces"];
        REQUIRE(faces.size() == 1);
        const Json& face = faces[0];
        if (face["told"])
            CHECK(std::abs(face["blur_px"].get<double>() - disc_px) <
                  std::max(0.5, 0.15 * disc_px));
        CHECK(face["eyes"] != "shut");
        CHECK(face["blurred_by"] != "movement");
    }
}

TEST_CASE("inspect refuses in one line, and leaves every file as it was", "[command][property]") {
    const Folder folder;
    const auto bytes = png_bytes(Image<Rgb8>(300, 200, {90, 90, 90}));
    const std::string grey =
        folder.write("grey.png", {reinterpret_cast<const char*>(bytes.data()), bytes.size()});
    const std::string broken = folder.write("broken.jpg", "no picture");
    const std::string scene = folder.write("x.toml", "[[row]]\npeople = [\"Odile\"]\n");
    const auto check = [&](const Words& more, int exit_code, const std::string& said) {
        Words words{"inspect"};
        words.insert(words.end(), more.begin(), more.end());
        const Ran ran = run(words);
        CAPTURE(more, ran.err);
        CHECK(ran.exit_code == exit_code);
        CHECK(ran.out.empty());
        CHECK_THAT(ran.err, Contains(said));
    };
    check({broken}, 1, "broken.jpg: is not a PNG, JPEG, BMP or TGA picture");
    check({folder / "none"}, 1, "none: cannot be read");
    check({grey, "--scene", folder / "none.toml"}, 1, "there is no such scene file");
    check({grey, "--scene", scene, "--box", "1,1,9,9"}, 2,
          "--box and --scene both say where heads are");
    check({grey, "--box", "0,0,100,150", "--person", "1"}, 2, "--sheet");
    check({grey, "--box", "0,0,100,150", "--sheet", grey}, 2, "grey.png");
    check({grey, "--box", "0,0,100,150", "--sheet", folder / "a.jpg"}, 2, "a.jpg");
    check({grey, "--box", "0,0,100,150", "--sheet", folder / "a.png", "--person", "7"}, 1,
          "there is no face of `7` in these frames");
    const Folder empty;
    check({empty / "."}, 1, "there is no photograph in this folder");
    CHECK(folder.entries() == std::vector<std::string>{"broken.jpg", "grey.png", "x.toml"});

    const Ran told = run({"inspect", grey, "--box", "50,20,100,150"});
    CHECK(told.exit_code == 0);
    CHECK_THAT(told.out, Contains("cannot tell: flat"));
    CHECK_THAT(told.out, Contains("Of no face can be told how sharp it is."));
}

TEST_CASE("the sheet has one person's face of every frame", "[command][property]") {
    const Folder folder;
    const auto bytes = png_bytes(Image<Rgb8>(300, 200, {90, 90, 90}));
    for (const char* name : {"a.png", "b.png"})
        folder.write(name, {reinterpret_cast<const char*>(bytes.data()), bytes.size()});
    const Ran ran = run({"inspect", folder / ".", "--box", "50,20,100,150", "--sheet",
                         folder / "sheet.png", "--person", "1", "--format", "json"});
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    const Json json = Json::parse(ran.out);
    CHECK(json["frames"].size() == 2);
    CHECK(json["best"].is_null());
    CHECK(folder.entries() == std::vector<std::string>{"a.png", "b.png", "sheet.png"});
}

}  // namespace backrow::command
