#include "drawn_frames.h"

#include "pictures.h"
#include "running.h"

#include "../base/lot.h"

#include "base/colour.h"
#include "base/image.h"
#include "base/image_files.h"
#include "base/splitmix64.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <string>
#include <vector>

namespace backrow::command {
namespace {

using Json = nlohmann::json;

/// Variances along an axis: a sixteenth of a disc's diameter squared, a twelfth of a stroke's
/// length squared.
constexpr double disc_px2_from_variance = 16;
constexpr double stroke_px2_from_variance = 12;

double share_of(double place, int step) {
    return std::max(0.0, 1 - std::abs(place - step));
}

Image<Rgb> light_of(const Image<Rgb8>& shown) {
    Image<Rgb> light(shown.width_px(), shown.height_px());
    std::ranges::transform(shown.pixels(), light.pixels().begin(), [](const Rgb8& pixel) {
        return Rgb{linear_from_srgb(pixel.r / 255.0f), linear_from_srgb(pixel.g / 255.0f),
                   linear_from_srgb(pixel.b / 255.0f)};
    });
    return light;
}

std::uint8_t step_of(float light) {
    return static_cast<std::uint8_t>(
        std::lround(255 * srgb_from_linear(std::clamp(light, 0.0f, 1.0f))));
}

void write(const std::string& file, const Bytes& bytes) {
    std::ofstream{file, std::ios::binary}.write(reinterpret_cast<const char*>(bytes.data()),
                                                static_cast<std::streamsize>(bytes.size()));
}

/// What a pixel has of the light of others about it.
struct Share {
    int right, down;
    float weight;
};

/// Light along a stroke, each place of it linearly out of the pixels beside it. All steps together
/// fall on few pixels.
std::vector<Share> shares_along(double stroke_px, double stroke_deg) {
    const double turn = stroke_deg / 180 * std::numbers::pi;
    const int steps = static_cast<int>(std::ceil(3 * stroke_px));
    const int reach = static_cast<int>(std::ceil(stroke_px / 2)) + 1;
    std::vector<Share> shares;
    for (int down = -reach; down <= reach; ++down)
        for (int right = -reach; right <= reach; ++right) {
            double weight = 0;
            for (int i = 0; i < steps; ++i) {
                const double along = stroke_px * ((i + 0.5) / steps - 0.5);
                weight += share_of(along * std::cos(turn), right) *
                          share_of(-along * std::sin(turn), down) / steps;
            }
            if (weight > 0)
                shares.push_back({right, down, static_cast<float>(weight)});
        }
    return shares;
}

Image<Rgb8> swung(const Image<Rgb8>& still, double stroke_px, double stroke_deg) {
    const std::vector<Share> shares = shares_along(stroke_px, stroke_deg);
    const Image<Rgb> light = light_of(still);
    Image<Rgb8> moved(still.width_px(), still.height_px());
    for (int y = 0; y < still.height_px(); ++y)
        for (int x = 0; x < still.width_px(); ++x) {
            Rgb sum;
            for (const Share& share : shares) {
                const Rgb& one = light.at(std::clamp(x + share.right, 0, still.width_px() - 1),
                                          std::clamp(y + share.down, 0, still.height_px() - 1));
                sum = {sum.r + share.weight * one.r, sum.g + share.weight * one.g,
                       sum.b + share.weight * one.b};
            }
            moved.at(x, y) = {step_of(sum.r), step_of(sum.g), step_of(sum.b)};
        }
    return moved;
}

/// Electrons that make a pixel white at ISO 100 and those of reading it, of a large sensor; both
/// from memory.
constexpr double full_at_iso_100 = 60000;
constexpr double of_reading = 3;

/// Light counted, which spreads as its root does (Poisson, by the normal distribution that counts
/// of some tens have).
Image<Rgb8> with_noise(const Image<Rgb8>& still, double iso, Lot lot) {
    const double full = full_at_iso_100 * 100 / iso;
    const auto counted = [&](float light) {
        const double electrons = light * full;
        const double normal = std::sqrt(-2 * std::log(lot.between(1e-9, 1))) *
                              std::cos(2 * std::numbers::pi * lot.between(0, 1));
        return step_of(static_cast<float>(
            (electrons + normal * std::sqrt(electrons + of_reading * of_reading)) / full));
    };
    Image<Rgb8> noisy(still.width_px(), still.height_px());
    std::ranges::transform(light_of(still).pixels(), noisy.pixels().begin(), [&](const Rgb& light) {
        return Rgb8{counted(light.r), counted(light.g), counted(light.b)};
    });
    return noisy;
}

/// A value of the scene for one frame.
using Settings = std::vector<std::string>;

struct Shot {
    Settings settings;
    double stroke_px = 0;
    double stroke_deg = 0;
    std::vector<std::string> shut{};
    std::uint64_t chance = 0;  ///< Of its noise.
};

Json drawn(const std::string& scene, const std::string& file, int width_px, const Shot& shot) {
    Words words{
        "preview",   scene,     "-o",
        file,        "--width", std::to_string(width_px),
        "--samples", "32",      "--format",
        "json",      "--set",   fmt::format("camera.pixels=[{},{}]", width_px, width_px * 2 / 3)};
    for (const std::string& setting : shot.settings)
        words.insert(words.end(), {"--set", setting});
    const Ran ran = run(words, {.limit = std::chrono::seconds{600}});
    CAPTURE(words, ran.err);
    REQUIRE(ran.exit_code == 0);
    if (shot.stroke_px > 0) {
        write(file, png_bytes(swung(picture_from_png(file), shot.stroke_px, shot.stroke_deg)));
    }
    return Json::parse(ran.out)["faces"];
}

/// Draws it where it is not there yet; what is so is written last, so that a frame which has that
/// is whole.
DrawnFrame frame(const std::string& scene, const std::string& name, int width_px,
                 const Shot& shot) {
    const std::string truth = name + ".json";
    DrawnFrame taken{.file = name + ".png",
                     .photograph = name + ".jpg",
                     .stroke_px = shot.stroke_px,
                     .stroke_deg = shot.stroke_deg};
    if (!std::filesystem::exists(truth)) {
        const Json faces = drawn(scene, taken.file, width_px, shot);
        std::ofstream{truth} << faces.dump();
    }
    if (!std::filesystem::exists(taken.photograph)) {
        Lot lot{shot.chance};
        const double iso = 400 * std::exp2(lot.between(0, 3));
        const int quality = 90 + static_cast<int>(lot.below(6));
        write(taken.photograph,
              jpeg_bytes(with_noise(picture_from_png(taken.file), iso, lot), quality));
    }
    for (const Json& face : Json::parse(text_of(truth))) {
        const std::string person = face["name"];
        taken.faces[person] = {.disc_px = face["measured_blur_px"],
                               .seen = face["visible_fraction"],
                               .shut = std::ranges::count(shot.shut, person) > 0};
    }
    return taken;
}

std::vector<Shot> shots_of(Lot& lot, const Json& table) {
    const double focus_m = table["focus"]["distance_m"];
    const std::size_t count = 3 + lot.below(4);
    std::vector<Shot> shots(count);
    for (std::size_t i = 0; i < count; ++i) {
        Shot& shot = shots[i];
        const double about_right = lot.between(-0.02, 0.02);
        const double behind = lot.between(0.03, 0.2);
        const double before = lot.between(-0.25, -0.03);
        const double kind = lot.between(0, 1);
        const double off = i == 0 || kind < 0.4 ? about_right : kind < 0.7 ? behind : before;
        shot.settings = {fmt::format("focus.distance_m={:.3f}", focus_m * (1 + off)),
                         fmt::format("camera.f_number={:.2f}", lot.between(1.2, 4))};
        shot.stroke_px = lot.between(2, 12);
        shot.stroke_deg = lot.between(-90, 90);
        if (!lot.in(0.25))
            shot.stroke_px = 0;
        for (const Json& face : table["faces"]) {
            const std::string name = face["name"];
            const std::string of_person = fmt::format("person.\"{}\".", name);
            const bool is_shut = lot.in(0.15);
            const bool smiles = lot.in(0.3);
            if (is_shut)
                shot.shut.push_back(name);
            if (is_shut || smiles)
                shot.settings.push_back(of_person +
                                        (is_shut ? "expression=eyes_closed" : "expression=smile"));
            const double turn_deg = lot.between(-6, 6);
            if (lot.in(0.3))
                shot.settings.push_back(of_person + fmt::format("head_turn_deg={:.1f}", turn_deg));
        }
    }
    return shots;
}

}  // namespace

double DrawnFrame::blur_px(const DrawnFace& face) const {
    double px2 = 0;  // both axes
    for (const Share& share : shares_along(stroke_px, stroke_deg))
        px2 += share.weight * (share.right * share.right + share.down * share.down);
    return std::sqrt(face.disc_px * face.disc_px + disc_px2_from_variance * px2 / 2);
}

bool DrawnFrame::mainly_moved(const DrawnFace& face) const {
    return stroke_px * stroke_px / stroke_px2_from_variance >
           face.disc_px * face.disc_px / disc_px2_from_variance;
}

DrawnGroup drawn_group(std::uint64_t number, const std::string& folder) {
    Lot lot{number};
    const std::string name = folder + fmt::format("/{:03}", number);
    DrawnGroup group{.scene = name + ".toml", .frames = {}};
    constexpr std::array focal_lengths{"50", "85", "105"};
    constexpr std::array backdrops{"hedge", "wall", "trees", "bookshelf", "hall"};
    Words words{"arrange",        "-o",
                group.scene,      "--replace",
                "--people",       std::to_string(2 + lot.below(11)),
                "--focal-length", lot.one_of(focal_lengths),
                "--orientation",  "landscape"};
    if (const auto age = 4 + lot.below(9); lot.in(0.4))
        words.insert(words.end(), {"--children", std::to_string(age)});
    const int width_px = static_cast<int>(60 * (20 + lot.below(11)));
    const Ran arranged = run(words);
    CAPTURE(arranged.err);
    REQUIRE(arranged.exit_code == 0);
    const Json table = Json::parse(run({"faces", group.scene, "--format", "json"}).out);
    std::vector<Shot> shots = shots_of(lot, table);
    const std::string backdrop = fmt::format("setting.backdrop.0.kind={}", lot.one_of(backdrops));
    for (Shot& shot : shots)
        shot.settings.push_back(backdrop);
    for (std::size_t i = 0; i < shots.size(); ++i) {
        shots[i].chance = splitmix64(number) + i;
        group.frames.push_back(
            frame(group.scene, fmt::format("{}-{}", name, i), width_px, shots[i]));
    }
    return group;
}

}  // namespace backrow::command
