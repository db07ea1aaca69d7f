#include "report/faces/faces_sheet.h"

#include "report/drawing/canvas.h"
#include "report/drawing/verdict_mark.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>

// The leak checker's own hook: Fontconfig, Pango and GLib keep what they found of the system's
// fonts until the program ends.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libfontconfig\nleak:libpango\nleak:libglib\nleak:libgobject";
}

using namespace backrow;
using namespace backrow::report;

namespace {

/// A picture in which no two pixels near each other are alike, so that it can lie in one place
/// only.
Image<Rgb8> texture(int width_px, int height_px, int kind) {
    Image<Rgb8> picture(width_px, height_px);
    for (int y = 0; y < height_px; ++y)
        for (int x = 0; x < width_px; ++x)
            picture.at(x, y) = {static_cast<std::uint8_t>(x * 7 + kind * 31),
                                static_cast<std::uint8_t>(y * 5 + kind * 17),
                                static_cast<std::uint8_t>(x * y + kind)};
    return picture;
}

FacePicture face(std::string name, Image<Rgb8> pixels) {
    return {.pixels = std::move(pixels),
            .name = std::move(name),
            .predicted_blur_px = 3.2,
            .measured_blur_px = std::nullopt,
            .verdict = plan::Verdict::fine};
}

bool lies_at(const Image<Rgb8>& sheet, const Image<Rgb8>& picture, int left, int top) {
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x)
            if (sheet.at(left + x, top + y) != picture.at(x, y))
                return false;
    return true;
}

struct At {
    int left, top;
};

std::optional<At> find(const Image<Rgb8>& sheet, const Image<Rgb8>& picture) {
    for (int top = 0; top + picture.height_px() <= sheet.height_px(); ++top)
        for (int left = 0; left + picture.width_px() <= sheet.width_px(); ++left)
            if (lies_at(sheet, picture, left, top))
                return At{left, top};
    return std::nullopt;
}

/// The pixels of a verdict's mark that are not background.
std::set<std::pair<int, int>> marked(plan::Verdict verdict) {
    constexpr Rgb8 background{0, 0, 0};
    const int width_px = static_cast<int>(verdict_mark_width_px);
    const int height_px = static_cast<int>(verdict_mark_height_px);
    Canvas canvas(width_px, height_px, background);
    draw_verdict_mark(canvas, 0, 0, verdict);
    Image<Rgb8> picture(width_px, height_px);
    canvas.copy_into(picture, 0, 0);
    std::set<std::pair<int, int>> pixels;
    for (int y = 0; y < height_px; ++y)
        for (int x = 0; x < width_px; ++x)
            if (picture.at(x, y).r + picture.at(x, y).g + picture.at(x, y).b > 150)
                pixels.insert({x, y});
    return pixels;
}

constexpr auto all_verdicts = {plan::Verdict::hidden, plan::Verdict::cut_off, plan::Verdict::crisp,
                               plan::Verdict::fine,   plan::Verdict::soft,    plan::Verdict::lost};

}  // namespace

TEST_CASE("every pixel of a face is one pixel of the sheet", "[report][property]") {
    const std::vector<FacePicture> faces{
        face("A", texture(90, 120, 1)), face("B", texture(64, 77, 2)),
        face("C", texture(250, 131, 3)), face("D", texture(1, 1, 4))};
    const auto sheet = faces_sheet(faces, "Harbour choir");
    for (std::size_t i = 0; i < 3; ++i) {
        CAPTURE(faces[i].name);
        CHECK(find(sheet, faces[i].pixels));
    }
}

TEST_CASE("faces stand in their order, row after row", "[report][property]") {
    std::vector<FacePicture> faces;
    for (int i = 0; i < 7; ++i)
        faces.push_back(face("N", texture(60, 60, i + 1)));
    const auto sheet = faces_sheet(faces, "");
    std::optional<At> before;
    for (const FacePicture& one : faces) {
        const auto at = find(sheet, one.pixels);
        REQUIRE(at);
        if (before)
            CHECK((at->top > before->top || (at->top == before->top && at->left > before->left)));
        before = at;
    }
}

TEST_CASE("the same faces give the same sheet", "[report][property]") {
    const std::vector<FacePicture> faces{face("Zo\u00eb", texture(90, 120, 1))};
    CHECK(faces_sheet(faces, "T").pixels() == faces_sheet(faces, "T").pixels());
}

TEST_CASE("name, blur, measure, grade, frame and title are all lettered", "[report][property]") {
    const FacePicture plain = face("A", texture(40, 40, 1));
    const auto sheet = faces_sheet({plain}, "T");
    const auto differs = [&](const FacePicture& other) {
        return faces_sheet({other}, "T").pixels() != sheet.pixels();
    };
    CHECK(differs(face("B", plain.pixels)));
    FacePicture other = plain;
    other.predicted_blur_px = 3.3;
    CHECK(differs(other));
    other = plain;
    other.measured_blur_px = 3.1;
    CHECK(differs(other));
    other = plain;
    other.verdict = plan::Verdict::soft;
    CHECK(differs(other));
    other = plain;
    other.trouble = "cut at the chin";
    CHECK(differs(other));
    CHECK(faces_sheet({plain}, "U").pixels() != sheet.pixels());
}

TEST_CASE("a name too long for its column stays in its column", "[report][property]") {
    std::vector<FacePicture> faces;
    for (int i = 0; i < 4; ++i)
        faces.push_back(face("N", texture(60, 60, i + 1)));
    const auto plain = faces_sheet(faces, "T");
    faces[0].name = std::string(5000, 'W');
    const auto sheet = faces_sheet(faces, "T");
    REQUIRE(sheet.width_px() == plain.width_px());
    REQUIRE(sheet.height_px() == plain.height_px());
    const auto second = find(sheet, faces[1].pixels);
    REQUIRE(second);
    REQUIRE(second->left > 60);
    for (int y = 0; y < sheet.height_px(); ++y)
        for (int x = second->left; x < sheet.width_px(); ++x)
            if (sheet.at(x, y) != plain.at(x, y))
                FAIL("the first caption reaches " << x << ", " << y);
}

TEST_CASE("lettering is cut to its width with dots, never through a letter", "[report][property]") {
    Canvas canvas(400, 40, {0, 0, 0});
    const Lettering lettering{.size_px = 15};
    const double whole = canvas.text_width_px("Zo\u00eb", lettering);
    CHECK(whole > canvas.text_width_px("Zo", lettering));
    // Without hinting two texts side by side are as wide as both.
    CHECK(std::abs(canvas.text_width_px("\u00eb\u00eb", lettering) -
                   2 * canvas.text_width_px("\u00eb", lettering)) < 1e-6);
}

TEST_CASE("nobody, somebody outside, and somebody behind the lens still make a sheet",
          "[report][property]") {
    CHECK_FALSE(faces_sheet({}, "").empty());
    FacePicture outside = face("Mo", {});
    outside.predicted_blur_px = std::numeric_limits<double>::infinity();
    outside.verdict = plan::Verdict::cut_off;
    CHECK_FALSE(faces_sheet({outside}, "T").empty());
}

TEST_CASE("a crowd's sheet keeps within its limits and says who is missing", "[report][property]") {
    std::vector<FacePicture> crowd;
    for (int i = 0; i < 2000; ++i)
        crowd.push_back(face("N", Image<Rgb8>(220, 260, Rgb8{200, 180, 160})));
    const auto sheet = faces_sheet(crowd, "Crowd");
    CHECK(sheet.width_px() <= longest_sheet_side_px);
    CHECK(sheet.height_px() <= longest_sheet_side_px);
    CHECK(static_cast<long>(sheet.width_px()) * sheet.height_px() <= most_sheet_pixels);

    // A thousand fit: 1000 · (240 + 24) · (260 + 80) px is 90 million. Two thousand cannot.
    const auto skin = std::ranges::count(sheet.pixels(), Rgb8{200, 180, 160});
    CHECK(skin >= 1000L * 220 * 260);
    CHECK(skin < 2000L * 220 * 260);
}

TEST_CASE("a picture larger than any sheet is left out, the others stay", "[report][property]") {
    const auto small = face("A", texture(50, 50, 1));
    const auto sheet = faces_sheet({face("Huge", Image<Rgb8>(16001, 2)), small}, "T");
    CHECK(sheet.width_px() < 2000);
    CHECK(find(sheet, small.pixels));
}

// Without colour: any two marks differ in at least an eighth of the pixels that either inks.
TEST_CASE("verdicts are told apart by shape alone", "[report][property]") {
    for (const auto one : all_verdicts)
        for (const auto other : all_verdicts) {
            if (one == other)
                continue;
            const auto a = marked(one), b = marked(other);
            std::vector<std::pair<int, int>> apart, either;
            std::ranges::set_symmetric_difference(a, b, std::back_inserter(apart));
            std::ranges::set_union(a, b, std::back_inserter(either));
            CAPTURE(to_word(one), to_word(other));
            CHECK(8 * apart.size() >= either.size());
        }
}

TEST_CASE("whoever stands before a hidden face is not shown as that face", "[report][property]") {
    FacePicture hidden = face("Mo", texture(80, 90, 1));
    hidden.verdict = plan::Verdict::hidden;
    hidden.trouble = "hidden by Bram";
    CHECK_FALSE(find(faces_sheet({hidden}, "T"), hidden.pixels));
}
