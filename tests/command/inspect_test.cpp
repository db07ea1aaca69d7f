#include "pictures.h"
#include "running.h"

#include "measure/synthetic_edge.h"

#include "base/colour.h"
#include "base/image.h"
#include "base/image_files.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <fstream>
#include <map>
#include <numbers>
#include <string>
#include <vector>

namespace backrow::command {
namespace {

using Catch::Contains;
using Json = nlohmann::json;

/// A face in a frame: what is so, and what `inspect` says of it.
struct Face {
    double blur_px = 0;  ///< The disc of the same variance.
    bool moved = false;
    double moved_deg = 0;
    double moved_px = 0;
    bool shut = false;
    Json said;
};

/// By name; those of whom too little is in sight to be judged are left out.
using FacesOfFrame = std::map<std::string, Face>;

constexpr int width_px = 1500;
constexpr int height_px = 1000;

/// How a frame is taken.
struct Shot {
    double focus_m = 0;
    double f_number = 2;
    double stroke_px = 0;  ///< By which the camera swings in the frame.
    double stroke_deg = 0;
    std::vector<std::string> shut{};
};

/// Light along a stroke about each pixel, anticlockwise from the right.
Image<Rgb8> swung(const Image<Rgb8>& still, double stroke_px, double stroke_deg) {
    const double turn = stroke_deg / 180 * std::numbers::pi;
    const int steps = static_cast<int>(std::ceil(4 * stroke_px));
    Image<Rgb8> moved(still.width_px(), still.height_px());
    const auto light_at = [&](double x, double y) {
        const int left = static_cast<int>(std::floor(x));
        const int top = static_cast<int>(std::floor(y));
        Rgb sum;
        for (const int right : {0, 1})
            for (const int down : {0, 1}) {
                const auto share = static_cast<float>(std::abs(1 - right - (x - left)) *
                                                      std::abs(1 - down - (y - top)));
                const Rgb8& pixel = still.at(std::clamp(left + right, 0, still.width_px() - 1),
                                             std::clamp(top + down, 0, still.height_px() - 1));
                sum.r += share * linear_from_srgb(pixel.r / 255.0f);
                sum.g += share * linear_from_srgb(pixel.g / 255.0f);
                sum.b += share * linear_from_srgb(pixel.b / 255.0f);
            }
        return sum;
    };
    const auto step_of = [](float light) {
        return static_cast<std::uint8_t>(
            std::lround(255 * srgb_from_linear(std::min(1.0f, light))));
    };
    for (int y = 0; y < still.height_px(); ++y)
        for (int x = 0; x < still.width_px(); ++x) {
            Rgb sum;
            for (int i = 0; i < steps; ++i) {
                const double along = stroke_px * ((i + 0.5) / steps - 0.5);
                const Rgb light = light_at(x + along * std::cos(turn), y - along * std::sin(turn));
                sum = {sum.r + light.r, sum.g + light.g, sum.b + light.b};
            }
            const auto count = static_cast<float>(steps);
            moved.at(x, y) = {step_of(sum.r / count), step_of(sum.g / count),
                              step_of(sum.b / count)};
        }
    return moved;
}

/// Draws the frame, writes it to a file, and tells what is so.
FacesOfFrame taken(const std::string& scene, const std::string& file, const Shot& shot) {
    Words words{"preview",   scene,
                "-o",        file,
                "--width",   std::to_string(width_px),
                "--samples", "64",
                "--format",  "json",
                "--set",     fmt::format("camera.pixels=[{},{}]", width_px, height_px),
                "--set",     fmt::format("camera.f_number={}", shot.f_number),
                "--set",     fmt::format("focus.distance_m={:.3f}", shot.focus_m)};
    for (const std::string& name : shot.shut) {
        words.push_back("--set");
        words.push_back(fmt::format("person.{}.expression=\"eyes_closed\"", name));
    }
    const Ran drawn = run(words);
    CAPTURE(drawn.err);
    REQUIRE(drawn.exit_code == 0);
    if (shot.stroke_px > 0) {
        const auto bytes =
            png_bytes(swung(picture_from_png(file), shot.stroke_px, shot.stroke_deg));
        std::ofstream{file, std::ios::binary}.write(reinterpret_cast<const char*>(bytes.data()),
                                                    static_cast<std::streamsize>(bytes.size()));
    }
    FacesOfFrame faces;
    const Json table = Json::parse(drawn.out);
    for (const Json& face : table["faces"])
        if (face["visible_fraction"] > 0.7) {
            const double disc_px = face["measured_blur_px"];
            // Variances: a sixteenth of a disc's diameter squared, a twelfth of a stroke's length,
            // along it alone.
            const double of_stroke_px2 = shot.stroke_px * shot.stroke_px / 12 / 2;
            const std::string name = face["name"];
            faces[name] = Face{.blur_px = std::sqrt(disc_px * disc_px + 16 * of_stroke_px2),
                               .moved = shot.stroke_px > 0,
                               .moved_deg = shot.stroke_deg,
                               .moved_px = shot.stroke_px,
                               .shut = std::ranges::count(shot.shut, name) > 0,
                               .said = {}};
        }
    return faces;
}

/// A group by lot in three frames: about right, focused behind it, and focused before it or swung.
std::vector<FacesOfFrame> inspected_group(measure::Lots& lots, int most_people) {
    const Folder folder;
    const std::string scene = folder / "group.toml";
    const double focal_length = lots.between(0, 3);
    REQUIRE(
        run({"arrange", "-o", scene, "--people",
             std::to_string(static_cast<int>(lots.between(2, most_people + 1))), "--focal-length",
             focal_length < 1   ? "50"
             : focal_length < 2 ? "85"
                                : "105"})
            .exit_code == 0);
    std::string text = text_of(scene);
    if (const auto portrait = text.find("\"portrait\""); portrait != std::string::npos)
        text.replace(portrait, 10, "\"landscape\"");
    folder.write("group.toml", text);
    const Json table = Json::parse(run({"faces", scene, "--format", "json"}).out);
    const double focus_m = table["focus"]["distance_m"];
    const bool swings = lots.between(0, 1) < 0.5;
    std::vector<Shot> shots{{.focus_m = focus_m * (1 + lots.between(-0.02, 0.02))},
                            {.focus_m = focus_m * (1 + lots.between(0.03, 0.2))},
                            {.focus_m = focus_m * (1 + (swings ? lots.between(-0.02, 0.02)
                                                               : lots.between(-0.3, -0.03)))}};
    if (swings) {
        shots[2].stroke_px = lots.between(3, 16);
        shots[2].stroke_deg = lots.between(-90, 90);
    }
    std::vector<FacesOfFrame> frames;
    Words words{"inspect"};
    for (std::size_t i = 0; i < shots.size(); ++i) {
        shots[i].f_number = lots.between(1.2, 4);
        for (const Json& face : table["faces"])
            if (lots.between(0, 1) < 0.15)
                shots[i].shut.push_back(face["name"].get<std::string>());
        words.push_back(folder / fmt::format("{}.png", i));
        frames.push_back(taken(scene, words.back(), shots[i]));
    }
    words.insert(words.end(), {"--scene", scene, "--use", "pixels", "--format", "json"});
    const Ran ran = run(words);
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    const Json inspected = Json::parse(ran.out);
    for (std::size_t i = 0; i < frames.size(); ++i)
        for (const Json& face : inspected["frames"][i]["faces"])
            if (const auto found = frames[i].find(face["name"].get<std::string>());
                found != frames[i].end())
                found->second.said = face;
    return frames;
}

struct Tally {
    int faces = 0;
    int told = 0, near = 0, within = 0;  ///< Blurs that are claimed, and right.
    int estimated = 0;
    int pairs = 0, in_order = 0;
    int named = 0, named_right = 0, moved = 0, moved_found = 0;
    int eyes = 0, eyes_right = 0, shut = 0, shut_found = 0;
};

void count_face(Tally& tally, const Face& face) {
    ++tally.faces;
    if (!face.said["blur_px"].is_null()) {
        ++tally.estimated;
        tally.within += face.blur_px >= face.said["blur_from_px"].get<double>() - 0.05 &&
                        face.blur_px <= face.said["blur_to_px"].get<double>() + 0.05;
    }
    if (face.said["told"]) {
        ++tally.told;
        tally.near += std::abs(face.said["blur_px"].get<double>() - face.blur_px) <
                      std::max(0.5, 0.15 * face.blur_px);
    }
    // A stroke that a defocus drowns is neither.
    const bool mainly_moved =
        face.moved && face.moved_px * face.moved_px / 12 > face.blur_px * face.blur_px / 16;
    tally.moved += mainly_moved;
    if (!face.said["blurred_by"].is_null()) {
        const bool said_moved = face.said["blurred_by"] == "movement";
        double off_deg = 0;
        if (said_moved)
            off_deg = std::abs(
                std::remainder(face.said["direction_deg"].get<double>() - face.moved_deg, 180));
        ++tally.named;
        tally.named_right += said_moved ? face.moved && off_deg < 15 : !mainly_moved;
        tally.moved_found += said_moved && mainly_moved;
    }
    tally.shut += face.shut;
    if (!face.said["eyes"].is_null()) {
        ++tally.eyes;
        tally.eyes_right += (face.said["eyes"] == "shut") == face.shut;
        tally.shut_found += face.shut && face.said["eyes"] == "shut";
    }
}

void count_pairs(Tally& tally, const std::vector<FacesOfFrame>& frames) {
    for (const FacesOfFrame& frame : frames)
        for (const auto& [name, face] : frame)
            for (const FacesOfFrame& others : frames) {
                const auto other = others.find(name);
                if (other == others.end() || face.said["blur_px"].is_null() ||
                    other->second.said["blur_px"].is_null() ||
                    face.blur_px <
                        std::max(1.2 * other->second.blur_px, other->second.blur_px + 0.5))
                    continue;
                ++tally.pairs;
                tally.in_order += face.said["blur_px"].get<double>() >
                                  other->second.said["blur_px"].get<double>();
            }
}

int groups_to_try() {
    const char* more = std::getenv("BACKROW_INSPECTED_GROUPS");
    return more != nullptr ? std::max(1, std::atoi(more)) : 1;
}

}  // namespace

// Three frames of each group, by lot; constants were chosen on other lots than these. Tolerances:
// blurs within 15 % or half a pixel where they are told; of pairs of the same head that differ by a
// fifth and by half a pixel, 95 %, and one more may be wrong, for of a dozen at 95 % one often is.
TEST_CASE("the blur of rendered faces is told, which frame is sharper, what moved and who blinks",
          "[command][measured]") {
    measure::Lots lots{7};
    Tally tally;
    const int groups = groups_to_try();
    for (int group = 0; group < groups; ++group) {
        const std::vector<FacesOfFrame> frames = inspected_group(lots, groups > 1 ? 12 : 4);
        for (const FacesOfFrame& frame : frames)
            for (const auto& [name, face] : frame)
                count_face(tally, face);
        count_pairs(tally, frames);
    }
    const std::string said = fmt::format(
        "{} faces: {} told, {} of them within 15 % or 0.5 px; {} estimated, {} within their range; "
        "{} of {} pairs in order; {} of {} right on focus or movement, {} of {} movements found; "
        "{} of {} right on eyes, {} of {} shut ones found",
        tally.faces, tally.told, tally.near, tally.estimated, tally.within, tally.in_order,
        tally.pairs, tally.named_right, tally.named, tally.moved_found, tally.moved,
        tally.eyes_right, tally.eyes, tally.shut_found, tally.shut);
    if (groups > 1)
        WARN(said);
    INFO(said);
    CHECK(tally.told * 10 >= tally.faces * 3);
    CHECK(tally.near * 100 >= tally.told * 95);
    CHECK(tally.within * 100 >= tally.estimated * 90);
    CHECK((tally.in_order + 1) * 100 >= tally.pairs * 95);
    CHECK(tally.pairs >= 3);
    CHECK(tally.named_right * 100 >= tally.named * 95);
    CHECK(tally.eyes_right * 100 >= tally.eyes * 95);
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
