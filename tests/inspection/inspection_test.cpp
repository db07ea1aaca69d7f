#include "inspection/inspection.h"

#include "../measure/detail_of_all_sizes.h"

#include "inspection/find_heads.h"

#include "base/colour.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
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

Image<Rgb8> shown_as(const Image<float>& head) {
    Image<Rgb8> shown(220, 300, {120, 120, 120});
    for (int y = 0; y < 200; ++y)
        for (int x = 0; x < 200; ++x) {
            const auto step = static_cast<std::uint8_t>(
                std::lround(255 * srgb_from_linear(std::clamp(head.at(x, y), 0.0f, 1.0f))));
            shown.at(10 + x, 50 + y) = {step, step, step};
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
    return inspect_frame(image, heads_blurred_by(discs_px), heads(discs_px.size(), off_px), {});
}

/// Heads of leaves have none.
void see_no_lids(Frame& frame) {
    for (FrameFace& face : frame.faces) {
        face.eyes = Eyes::unknown;
        face.lids_open.reset();
    }
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
        compared({frame_of("a", {6, 1, 3}), frame_of("b", {1, 4, 2}, 30), frame_of("c", {3, 6})},
                 std::nullopt);
    CHECK(people_of(found.frames[0]) == std::vector<std::string>{"1", "3", "2"});
    CHECK(people_of(found.frames[1]) == std::vector<std::string>{"2", "3", "1"});
    // Another width: places count by shares of it, so only the first is where somebody was.
    CHECK(found.frames[2].faces.size() == 2);
}

// Pixel by pixel, blurs to 3 px are fine.
TEST_CASE("the best frame has the sharpest of the least sharp, and heads from others mend it",
          "[inspection][property]") {
    std::vector<Frame> frames{frame_of("a", {9, 1, 1}), frame_of("b", {1, 5, 1}),
                              frame_of("c", {1, 1, 7})};
    std::ranges::for_each(frames, see_no_lids);
    const Inspection found = compared(frames, std::nullopt);
    REQUIRE(found.best);
    CHECK(found.frames[*found.best].image == "b");
    REQUIRE(found.swaps.size() == 1);
    CHECK(found.swaps[0].person == "2");
    CHECK(found.frames[found.swaps[0].frame].image != "b");
    CHECK(compared({frame_of("a", {9}), frame_of("b", {9})}, std::nullopt).swaps.empty());
    CHECK(compared({frame_of("a", {1, 1})}, std::nullopt).swaps.empty());
    CHECK_FALSE(compared({}, std::nullopt).best);
    CHECK_FALSE(compared({Frame{.image = "a"}}, std::nullopt).best);
}

// Whoever blinks spoils a frame as if lost: common practice, no source.
TEST_CASE("a frame in which somebody blinks is not the best while a softer one has all eyes open, "
          "and their head comes from there",
          "[inspection][practice]") {
    const auto frames_with = [](const std::vector<double>& open_blurred_by_px) {
        Frame blinking = frame_of("blinking", {1, 1});
        Frame open = frame_of("open", open_blurred_by_px);
        for (Frame* frame : {&blinking, &open})
            see_no_lids(*frame);
        blinking.faces[1].eyes = Eyes::shut;
        return compared({blinking, open}, std::nullopt);
    };
    const Inspection soft = frames_with({1, 5});
    REQUIRE(soft.best);
    CHECK(soft.frames[*soft.best].image == "open");
    CHECK(soft.swaps.empty());  // who is soft there blinks in the other
    const Inspection lost = frames_with({14, 1});
    REQUIRE(lost.best);
    CHECK(lost.frames[*lost.best].image == "blinking");
    REQUIRE(lost.swaps.size() == 1);
    CHECK(lost.swaps[0].person == "2");
}

TEST_CASE("a frame is said to be sharper where either blur lies outside what the other may be",
          "[inspection][property]") {
    const Blur sharp{.px = 0.3, .from_px = 0, .to_px = 0.9};
    const Blur little{.px = 0.8, .from_px = 0.2, .to_px = 1.6};
    const Blur more{.px = 1.5, .from_px = 1, .to_px = 2};
    CHECK(surely_sharper(sharp, more));
    CHECK_FALSE(surely_sharper(more, sharp));
    CHECK_FALSE(surely_sharper(sharp, little));
    CHECK_FALSE(surely_sharper(little, more));
    CHECK_FALSE(surely_sharper(sharp, sharp));

    std::vector<Frame> frames{frame_of("a", {5, 1}), frame_of("b", {1, 1}), frame_of("c", {9, 1})};
    std::ranges::for_each(frames, see_no_lids);
    const Inspection found = compared(frames, std::nullopt);
    const auto sharper_in = [&](std::size_t frame, const std::string& person) {
        for (const FrameFace& face : found.frames[frame].faces)
            if (face.person == person)
                return face.sharper_in;
        return std::vector<std::size_t>{99};
    };
    CHECK(sharper_in(0, "1") == std::vector<std::size_t>{1});
    CHECK(sharper_in(1, "1").empty());
    CHECK(sharper_in(2, "1") == std::vector<std::size_t>{0, 1});
    for (const std::size_t frame : {0U, 1U, 2U})
        CHECK(sharper_in(frame, "2").empty());
}

TEST_CASE("names that are known stay", "[inspection][property]") {
    const Frame frame = inspect_frame("a", heads_blurred_by({1, 5}), heads(2), {"Odile", "Bram"});
    const Inspection found = compared({frame}, optics::album_viewing);
    CHECK(people_of(found.frames[0]) == std::vector<std::string>{"Bram", "Odile"});
    CHECK(found.frames[0].faces[0].judged.unit == optics::BlurUnit::arcmin);
}

TEST_CASE("nothing is claimed of a face where nothing can be told", "[inspection][property]") {
    const Image<Rgb8> shown = heads_blurred_by({1});
    const auto why = [](const Image<Rgb8>& picture, const PixelBox& head) {
        const FaceBlur blur = face_sharpness(picture, head, {}, 0).blur;
        const auto* reason = std::get_if<CannotTell>(&blur);
        return std::string{reason != nullptr ? to_word(*reason) : "told"};
    };
    CHECK(why(shown, heads(1)[0]) == "told");
    CHECK(why(shown, {80, 100, 30, 47}) == "too small");
    CHECK(why(shown, {-60, 70, 107, 160}) == "outside");
    CHECK(why(shown, {57, 200, 107, 160}) == "outside");
    CHECK(why(Image<Rgb8>(220, 300, {120, 120, 120}), heads(1)[0]) == "flat");
    CHECK(why(Image<Rgb8>(220, 300, {255, 255, 255}), heads(1)[0]) == "burnt out");
    CHECK(why(heads_blurred_by({30}), heads(1)[0]) == "too blurred");
}

TEST_CASE("compared with a sharp frame a blur is told closely, and focus from movement",
          "[inspection][property]") {
    const Image<float> sharp = measure::leaves(200, 1);
    Image<float> moved(200, 200);
    for (int y = 0; y < 200; ++y)
        for (int x = 0; x < 200; ++x)
            for (int i = -4; i <= 4; ++i)
                moved.at(x, y) += sharp.at(x, std::clamp(y + i, 0, 199)) / 9;
    const auto frame = [](const std::string& image, const Image<float>& head) {
        return inspect_frame(image, shown_as(head), heads(1), {"Odile"});
    };
    const Inspection found =
        compared({frame("sharp", sharp), frame("defocused", measure::blurred_by_disc(sharp, 8)),
                  frame("moved", moved), frame("other", measure::leaves(200, 2))},
                 std::nullopt);
    const auto face = [&](std::size_t i) { return found.frames[i].faces.front(); };
    const FrameFace second = face(1);
    const auto* defocused = std::get_if<Blur>(&second.blur);
    REQUIRE(defocused != nullptr);
    CHECK(defocused->is_told());
    CHECK(defocused->px == Approx(8).epsilon(0.1));
    CHECK(face(0).kind == BlurKind::unknown);
    CHECK(face(1).kind == BlurKind::focus);
    CHECK(face(2).kind == BlurKind::movement);
    CHECK(std::abs(face(2).direction_deg) > 80);
    // Somebody else: nothing is claimed from comparing.
    CHECK(face(3).kind == BlurKind::unknown);
    const Inspection alone =
        compared({frame("alone", measure::blurred_by_disc(sharp, 6))}, std::nullopt);
    CHECK(alone.frames[0].faces[0].kind == BlurKind::focus);
}

TEST_CASE("one face tells by itself whether it was out of focus or moved",
          "[inspection][property]") {
    const Image<float> sharp = measure::leaves(200, 1);
    Image<float> moved(200, 200);
    for (int y = 0; y < 200; ++y)
        for (int x = 0; x < 200; ++x)
            for (int i = -4; i <= 4; ++i)
                moved.at(x, y) += sharp.at(x, std::clamp(y + i, 0, 199)) / 9;
    const auto told = [](const Image<float>& head) {
        return face_sharpness(shown_as(head), heads(1)[0], {}, 0);
    };
    CHECK(told(sharp).kind == BlurKind::unknown);
    CHECK(told(measure::blurred_by_disc(sharp, 6)).kind == BlurKind::focus);
    const FaceSharpness swung = told(moved);
    CHECK(swung.kind == BlurKind::movement);
    CHECK(std::abs(swung.direction_deg) > 80);
}

TEST_CASE("lids are told where they can be seen, and one frame tells of another",
          "[inspection][property]") {
    const auto eyes = [](const std::vector<ComparedFace>& seen) {
        std::vector<ComparedFace> faces = seen;
        compare(faces);
        std::vector<Eyes> found;
        for (const ComparedFace& face : faces)
            found.push_back(face.eyes);
        return found;
    };
    const auto face = [](double lids_open, double blur_px = 1, BlurKind kind = BlurKind::unknown) {
        ComparedFace one;
        one.blur = Blur{blur_px, blur_px, blur_px};
        one.kind = kind;
        one.head_px = 100;
        one.lids_open = lids_open;
        return one;
    };
    CHECK(eyes({face(0.34), face(0.22), face(0.32)}) ==
          std::vector{Eyes::open, Eyes::shut, Eyes::open});
    // Who never opens them wide may have narrow ones.
    CHECK(eyes({face(0.22), face(0.23)}) == std::vector{Eyes::unknown, Eyes::unknown});
    CHECK(eyes({face(0.34), face(0.22, 9)}) == std::vector{Eyes::open, Eyes::unknown});
    CHECK(eyes({face(0.34), face(0.22, 1, BlurKind::movement)}) ==
          std::vector{Eyes::open, Eyes::unknown});
    const auto alone = [](double lids_open) {
        const Image<Rgb8> shown = shown_as(measure::leaves(200, 3));
        return face_sharpness(shown, heads(1)[0], FaceMarks{110, 150, lids_open}, 0).eyes;
    };
    CHECK(alone(0.15) == Eyes::shut);
    CHECK(alone(0.24) == Eyes::unknown);
    CHECK(alone(0.33) == Eyes::open);
}

TEST_CASE("where there is no face none is found", "[inspection][property]") {
    CHECK(find_heads(Image<Rgb8>(300, 200, {90, 90, 90})).empty());
    CHECK(find_heads(Image<Rgb8>(1, 1)).empty());
    CHECK(find_heads(Image<Rgb8>(5000, 3)).empty());
    CHECK(find_heads(heads_blurred_by({0})).empty());
}

}  // namespace backrow::inspection
