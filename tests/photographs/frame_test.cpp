#include "photographs/frame.h"

#include "frame_writing.h"
#include "jpeg_writing.h"

#include "base/colour.h"
#include "base/image_files.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>

#include <unistd.h>

namespace backrow::photographs {
namespace {

using Catch::Matchers::WithinAbs;

class Kept {
public:
    Kept(const std::string& name, const std::string& bytes)
        : path_{std::filesystem::temp_directory_path() /
                ("backrow-frame-" + std::to_string(::getpid()) + name)} {
        std::ofstream{path_, std::ios::binary} << bytes;
    }
    Kept(const Kept&) = delete;
    Kept& operator=(const Kept&) = delete;
    ~Kept() { std::filesystem::remove(path_); }
    [[nodiscard]] std::string path() const { return path_.string(); }

private:
    std::filesystem::path path_;
};

std::string complaint(const std::string& file) {
    const auto frame = read_frame(file, Encoding::srgb);
    return frame ? "read" : frame.error().front().what;
}

/// A ramp from black to full.
Image<std::uint16_t> ramp() {
    Image<std::uint16_t> picture(257, 2);
    for (int y = 0; y < 2; ++y)
        for (int x = 0; x < 257; ++x)
            picture.at(x, y) = static_cast<std::uint16_t>(std::min(x * 256, 65535));
    return picture;
}

}  // namespace

// Tolerance: half a step of sixteen bits.
TEST_CASE("sixteen bits are read as they are, as light or as sRGB", "[photographs][property]") {
    const Kept file{"ramp.png", deep_png_of(ramp())};
    const auto as_light = read_frame(file.path(), Encoding::linear);
    const auto as_srgb = read_frame(file.path(), Encoding::srgb);
    REQUIRE(as_light);
    REQUIRE(as_srgb);
    REQUIRE(as_light->light.width_px() == 257);
    for (int x = 0; x < 257; ++x) {
        const float share = static_cast<float>(std::min(x * 256, 65535)) / 65535;
        CHECK_THAT(as_light->light.at(x, 1), WithinAbs(share, 1e-5));
        CHECK_THAT(as_srgb->light.at(x, 0), WithinAbs(linear_from_srgb(share), 1e-5));
    }
    CHECK(as_light->light.at(256, 0) == 1.0f);
    CHECK(as_srgb->shown.at(128, 0) == Rgb8{128, 128, 128});
}

TEST_CASE("of a coloured frame its luminance counts, or green alone", "[photographs][property]") {
    Image<Rgb8> picture{1, 1, {200, 100, 50}};
    const auto bytes = png_bytes(picture);
    const Kept file{"colours.png", {reinterpret_cast<const char*>(bytes.data()), bytes.size()}};
    const auto seen = read_frame(file.path(), Encoding::linear);
    const auto green = read_frame(file.path(), Encoding::linear, Light::green);
    REQUIRE(seen);
    REQUIRE(green);
    CHECK_THAT(255 * seen->light.at(0, 0),
               WithinAbs(0.2126 * 200 + 0.7152 * 100 + 0.0722 * 50, 1e-3));
    CHECK_THAT(255 * green->light.at(0, 0), WithinAbs(100, 1e-3));
}

TEST_CASE("a pixel of which one colour is full counts as white", "[photographs][property]") {
    Image<Rgb8> picture{2, 1, {255, 10, 10}};
    picture.at(1, 0) = {254, 10, 10};
    const auto bytes = png_bytes(picture);
    const Kept file{"red.png", {reinterpret_cast<const char*>(bytes.data()), bytes.size()}};
    const auto frame = read_frame(file.path(), Encoding::srgb);
    REQUIRE(frame);
    CHECK(frame->light.at(0, 0) == 1.0f);
    CHECK(frame->light.at(1, 0) < 0.3f);
}

TEST_CASE("aperture and focal length are read as the camera noted them, and the way up",
          "[photographs][property]") {
    const Image<Rgb8> lying{16, 8, {90, 90, 90}};
    const std::string plain = jpeg_of(lying, 0);
    const Kept file{"noted.jpg", with_notes(plain, 6, {14, 10}, {85, 1})};
    const auto frame = read_frame(file.path(), Encoding::srgb);
    REQUIRE(frame);
    CHECK(frame->light.width_px() == 8);
    CHECK(frame->f_number == 1.4);
    CHECK(frame->focal_length_mm == 85.0);
    const Kept bare{"bare.jpg", plain};
    const auto without = read_frame(bare.path(), Encoding::srgb);
    REQUIRE(without);
    CHECK_FALSE(without->f_number);
    const Kept naught{"naught.jpg", with_notes(plain, 1, {14, 0}, {0, 1})};
    const auto senseless = read_frame(naught.path(), Encoding::srgb);
    REQUIRE(senseless);
    CHECK_FALSE(senseless->f_number);
    CHECK_FALSE(senseless->focal_length_mm);
    // A PNG has the same in a chunk of its own.
    const Kept png{"noted.png", png_with_notes(deep_png_of(ramp()), 6, {28, 10}, {50, 1})};
    const auto noted = read_frame(png.path(), Encoding::srgb);
    REQUIRE(noted);
    CHECK(noted->light.width_px() == 2);
    CHECK(noted->f_number == 2.8);
    CHECK(noted->focal_length_mm == 50.0);
}

TEST_CASE("what is no whole picture is refused in a few words", "[photographs][property]") {
    CHECK(complaint("/nowhere/at/all.png") == "cannot be read");
    CHECK(complaint("/") == "cannot be read");
    const Kept empty{"empty.png", ""};
    CHECK(complaint(empty.path()) == "is not a PNG, JPEG, BMP or TGA picture");
    const Kept text{"text.jpg", "no picture at all"};
    CHECK(complaint(text.path()) == "is not a PNG, JPEG, BMP or TGA picture");
    const std::string whole = deep_png_of(ramp());
    const Kept cut{"cut.png", whole.substr(0, whole.size() / 2)};
    CHECK(complaint(cut.path()) == "is damaged");
    // Its head says 20,000 by 20,000.
    std::string vast = whole;
    for (const std::size_t at : {18u, 22u}) {
        vast[at] = '\x4e';
        vast[at + 1] = '\x20';
    }
    const Kept vast_file{"vast.png", vast};
    CHECK(complaint(vast_file.path()) == "has 20000 × 20000 pixels, more than there is room for");
}

TEST_CASE("any byte of a photograph's notes may be nonsense", "[photographs][property]") {
    const std::string whole = with_notes(jpeg_of(Image<Rgb8>{8, 8}, 0), 6, {14, 10}, {85, 1});
    for (std::size_t at = 2; at < 120; ++at)
        for (const char byte : {'\0', '\x7f', '\xff'}) {
            std::string hurt = whole;
            hurt[at] = byte;
            const Kept file{"hurt.jpg", hurt};
            const auto frame = read_frame(file.path(), Encoding::srgb);
            CHECK((!frame || frame->light.width_px() == 8));
        }
}

}  // namespace backrow::photographs
