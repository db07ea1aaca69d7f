#include "stage/exif_orientation.h"

#include "../scene_file/scene_folder.h"
#include "jpeg_writing.h"

#include "stage/read_photograph.h"

#include <catch2/catch.hpp>

#include <array>
#include <cstdint>
#include <utility>

namespace backrow::stage {

using namespace scene;
namespace {

int orientation_of(const std::string& bytes) {
    return static_cast<int>(
        exif_orientation({reinterpret_cast<const std::byte*>(bytes.data()), bytes.size()}));
}

// Three wide and two high, each pixel of its own: its red is its place in reading order.
Image<Rgba8> numbered() {
    Image<Rgba8> picture{3, 2};
    for (std::size_t i = 0; i < 6; ++i)
        picture.pixels()[i] = {static_cast<std::uint8_t>(i), 0, 0};
    return picture;
}

std::string read_across(const Image<Rgba8>& picture) {
    std::string numbers;
    for (int y = 0; y < picture.height_px(); ++y) {
        for (int x = 0; x < picture.width_px(); ++x)
            numbers += static_cast<char>('0' + picture.at(x, y).r);
        numbers += '/';
    }
    return numbers;
}

const std::string start = "\xff\xd8";

}  // namespace

TEST_CASE("the way up is read from both byte orders, behind other segments", "[stage][property]") {
    using namespace std::string_literals;
    const std::string other = "\xff\xe0\0\x06JFIF"s;
    const std::string comment = "\xff\xfe\0\x06note"s;
    const std::string same_kind = "\xff\xe1\0\x08http:/"s;  // as XMP, another APP1
    for (int noted = 1; noted <= 8; ++noted)
        for (const bool is_little : {false, true}) {
            CAPTURE(noted, is_little);
            CHECK(orientation_of(start + exif_segment(noted, is_little)) == noted);
            CHECK(orientation_of(start + other + exif_segment(noted, is_little) + "rest") == noted);
            CHECK(orientation_of(start + comment + exif_segment(noted, is_little)) == noted);
            CHECK(orientation_of(start + same_kind + exif_segment(noted, is_little)) == noted);
        }
}

TEST_CASE("what is not a whole and sensible note means upright", "[stage][property]") {
    using namespace std::string_literals;
    const std::string whole = start + exif_segment(6, false);
    REQUIRE(orientation_of(whole) == 6);
    // Cut anywhere.
    for (std::size_t size = 0; size < whole.size() - 6; ++size)
        CHECK(orientation_of(whole.substr(0, size)) == 1);
    for (const int nonsense : {0, 9, 127})
        CHECK(orientation_of(start + exif_segment(nonsense, true)) == 1);
    // After the picture has begun, no segment counts.
    CHECK(orientation_of(start + "\xff\xda\0\x02"s + exif_segment(6, true)) == 1);
    CHECK(orientation_of("\x89PNG"s + exif_segment(6, true)) == 1);
    // A directory far outside, and one of more entries than there are.
    std::string astray = whole;
    astray[astray.find("MM") + 4] = '\x7f';
    CHECK(orientation_of(astray) == 1);
    std::string endless = whole;
    endless[endless.find("MM") + 8] = '\xff';
    endless[endless.find("\x01\x12")] = '\x02';
    CHECK(orientation_of(endless) == 1);
    // Every byte in turn set to every kind of nonsense: any answer will do, but one of the eight.
    for (std::size_t at = 0; at < whole.size(); ++at)
        for (const char byte : {'\0', '\x01', '\x7f', '\x80', '\xff'}) {
            std::string hurt = whole;
            hurt[at] = byte;
            const int found = orientation_of(hurt);
            CHECK((found >= 1 && found <= 8));
        }
    // A segment shorter than its own length: libexif reads on, but it is no JPEG that opens.
    const scene_file::SceneFolder folder;
    CHECK_FALSE(read_photograph(
        folder.write("x.jpg", start + "\xff\xe1\0\0"s + jpeg_of(Image<Rgb8>{8, 8}, 6).substr(2)),
        {}, PhotographShape::any));
}

// Where the first row and column belong, [EXIF] from memory, written out by hand for the pixels
// 012/345.
TEST_CASE("each of the eight ways is turned upright", "[stage][from-memory]") {
    constexpr std::array<std::pair<int, const char*>, 8> upright{{{1, "012/345/"},
                                                                  {2, "210/543/"},
                                                                  {3, "543/210/"},
                                                                  {4, "345/012/"},
                                                                  {5, "03/14/25/"},
                                                                  {6, "30/41/52/"},
                                                                  {7, "52/41/30/"},
                                                                  {8, "25/14/03/"}}};
    for (const auto& [noted, expected] : upright) {
        CAPTURE(noted);
        CHECK(read_across(turned_upright(numbered(), static_cast<ExifOrientation>(noted))) ==
              expected);
    }
}

// Stored lying on its side, red where the top belongs. JPEG of best quality is a few steps off.
TEST_CASE("a photograph that was held upright stands upright", "[stage][property]") {
    const scene_file::SceneFolder folder;
    Image<Rgb8> lying{64, 32, {20, 40, 200}};
    for (int y = 0; y < 32; ++y)
        for (int x = 0; x < 32; ++x)
            lying.at(x, y) = {200, 30, 20};
    const auto upright =
        read_photograph(folder.write("x.jpg", jpeg_of(lying, 6)), {}, PhotographShape::any);
    REQUIRE(upright);
    CHECK(upright->width_px() == 32);
    CHECK(upright->height_px() == 64);
    CHECK(upright->at(16, 10).r > 180);
    CHECK(upright->at(16, 54).b > 180);
    const auto as_stored = read_photograph(folder.write("y.jpg", jpeg_of(lying, 0)), {},
                                           PhotographShape::equirectangular);
    REQUIRE(as_stored);
    CHECK(as_stored->width_px() == 64);
    CHECK_FALSE(read_photograph(folder.write("z.jpg", jpeg_of(lying, 6)), {},
                                PhotographShape::equirectangular));
}

}  // namespace backrow::stage
