#include "inspection/inspection.h"

#include "../measure/detail_of_all_sizes.h"

#include "inspection/find_heads.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

namespace backrow::inspection {
namespace {

using measure::PixelBox;

/// Heads of 160 px side by side, each of detail of all sizes, blurred by these discs.
Image<Rgb8> heads_blurred_by(const std::vector<double>& discs_px) {
    Image<Rgb8> shown(220 * static_cast<int>(discs_px.size()), 300, {120, 120, 120});
    for (std::size_t i = 0; i < discs_px.size(); ++i) {
        const Image<float> sharp = measure::leaves(200, i + 1);
        const Image<float> head =
            discs_px[i] > 0 ? measure::blurred_by_disc(sharp, discs_px[i]) : sharp;
        for (int y = 0; y < 200; ++y)
            for (int x = 0; x < 200; ++x) {
                const auto step = static_cast<std::uint8_t>(std::lround(255 * head.at(x, y)));
                shown.at(220 * static_cast<int>(i) + 10 + x, 50 + y) = {step, step, step};
            }
    }
    return shown;
}

std::vector<PixelBox> heads(std::size_t count, int off_px = 0) {
    std::vector<PixelBox> boxes;
    for (std::size_t i = 0; i < count; ++i)
        boxes.push_back({220 * static_cast<int>(i) + 57 + off_px, 70, 107, 160});
    return boxes;
}

Frame frame_of(const std::string& image, const std::vector<double>& discs_px, int off_px = 0) {
    return inspect_frame(image, heads_blurred_by(discs_px), heads(discs_px.size(), off_px), {},
                         std::nullopt);
}

std::vector<std::string> people_of(const Frame& frame) {
    std::vector<std::string> people;
    for (const FrameFace& face : frame.faces)
        people.push_back(face.person);
    return people;
}

}  // namespace

TEST_CASE("in each frame the least sharp face comes first, and people keep their numbers",
          "[inspection][property]") {
    const Inspection found =
        compared({frame_of("a", {6, 1, 3}), frame_of("b", {1, 4, 2}, 30), frame_of("c", {3, 6})});
    CHECK(people_of(found.frames[0]) == std::vector<std::string>{"1", "3", "2"});
    CHECK(people_of(found.frames[1]) == std::vector<std::string>{"2", "3", "1"});
    // Another width: places count by shares of it, so only the first is where somebody was.
    CHECK(found.frames[2].faces.size() == 2);
}

// Pixel by pixel, blurs to 3 px are fine.
TEST_CASE("the best frame has the sharpest of the least sharp, and heads from others mend it",
          "[inspection][property]") {
    const Inspection found =
        compared({frame_of("a", {9, 1, 1}), frame_of("b", {1, 5, 1}), frame_of("c", {1, 1, 7})});
    REQUIRE(found.best);
    CHECK(found.frames[*found.best].image == "b");
    REQUIRE(found.swaps.size() == 1);
    CHECK(found.swaps[0].person == "2");
    CHECK(found.frames[found.swaps[0].frame].image != "b");
    CHECK(compared({frame_of("a", {9}), frame_of("b", {9})}).swaps.empty());
    CHECK(compared({frame_of("a", {1, 1})}).swaps.empty());
    CHECK_FALSE(compared({}).best);
    CHECK_FALSE(compared({Frame{.image = "a"}}).best);
}

TEST_CASE("names that are known stay", "[inspection][property]") {
    const Frame frame = inspect_frame("a", heads_blurred_by({1, 5}), heads(2), {"Odile", "Bram"},
                                      optics::album_viewing);
    const Inspection found = compared({frame});
    CHECK(people_of(found.frames[0]) == std::vector<std::string>{"Bram", "Odile"});
    CHECK(found.frames[0].faces[0].judged.unit == optics::BlurUnit::arcmin);
}

TEST_CASE("nothing is claimed of a face where nothing can be told", "[inspection][property]") {
    const Image<Rgb8> shown = heads_blurred_by({1});
    const auto why = [](const Image<Rgb8>& picture, const PixelBox& head) {
        const FaceBlur blur = face_blur(picture, head);
        const auto* reason = std::get_if<CannotTell>(&blur);
        return std::string{reason != nullptr ? to_word(*reason) : "told"};
    };
    CHECK(why(shown, heads(1)[0]) == "told");
    CHECK(why(shown, {80, 100, 30, 47}) == "too small");
    CHECK(why(shown, {-60, 70, 107, 160}) == "outside");
    CHECK(why(shown, {57, 200, 107, 160}) == "outside");
    CHECK(why(Image<Rgb8>(220, 300, {120, 120, 120}), heads(1)[0]) == "flat");
    CHECK(why(Image<Rgb8>(220, 300, {255, 255, 255}), heads(1)[0]) == "burnt out");
    const FaceBlur broad = face_blur(heads_blurred_by({30}), heads(1)[0]);
    CAPTURE(std::holds_alternative<double>(broad) ? std::get<double>(broad) : -1);
    CHECK(why(heads_blurred_by({30}), heads(1)[0]) == "too blurred");
}

TEST_CASE("where there is no face none is found", "[inspection][property]") {
    CHECK(find_heads(Image<Rgb8>(300, 200, {90, 90, 90})).empty());
    CHECK(find_heads(Image<Rgb8>(1, 1)).empty());
    CHECK(find_heads(Image<Rgb8>(5000, 3)).empty());
    CHECK(find_heads(heads_blurred_by({0})).empty());
}

}  // namespace backrow::inspection
