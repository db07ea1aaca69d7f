#include "photographs/exif_orientation.h"

#include "jpeg_writing.h"

#include <catch2/catch.hpp>

#include <array>
#include <cstdint>
#include <utility>

namespace backrow::photographs {
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

TEST_CASE("the way up is read from both byte orders, behind other segments",
          "[photographs][property]") {
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

TEST_CASE("what is not a whole and sensible note means upright", "[photographs][property]") {
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
}

// Where the first row and column belong, [EXIF] from memory, written out by hand for the pixels
// 012/345.
TEST_CASE("each of the eight ways is turned upright", "[photographs][from-memory]") {
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

}  // namespace backrow::photographs
