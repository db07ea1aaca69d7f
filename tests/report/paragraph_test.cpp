#include "report/drawing/paragraph.h"

#include "base/utf8.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

using namespace backrow;
using namespace backrow::report;

namespace {

constexpr Rgb8 paper{255, 255, 255};
const Lettering lettering{.size_px = 10, .bold = false, .colour = {0, 0, 0}};
constexpr int page_px = 300;
constexpr double line_px = 14;
constexpr double left_px = 20;

struct Page {
    Image<Rgb8> pixels;
    double lines = 0;
};

Page page_of(const std::string& text, double width_px) {
    Canvas canvas(page_px, page_px, paper);
    const double end = draw_paragraph(canvas, left_px, 20, width_px, line_px, text, lettering);
    return {canvas.pixels(1), (end - 20) / line_px};
}

/// The last column with ink, none: −1.
int last_inked_column(const Image<Rgb8>& page) {
    int last = -1;
    for (int y = 0; y < page.height_px(); ++y)
        for (int x = 0; x < page.width_px(); ++x)
            if (page.at(x, y) != paper)
                last = std::max(last, x);
    return last;
}

double width_of(const std::string& text) {
    return Canvas(1, 1, paper).text_width_px(text, lettering);
}

/// Lettered line by line, as told.
Image<Rgb8> lettered(const std::vector<std::string>& lines) {
    Canvas canvas(page_px, page_px, paper);
    for (std::size_t i = 0; i < lines.size(); ++i)
        canvas.text(left_px, 20 + line_px * static_cast<double>(i), lines[i], lettering, page_px);
    return canvas.pixels(1);
}

}  // namespace

TEST_CASE("a paragraph breaks where the next word would not fit", "[report][property]") {
    const double just_wide_enough = width_of("everybody in the") + 0.01;
    const Page page = page_of("everybody in the last row", just_wide_enough);
    CHECK(page.lines == 2);
    CHECK(page.pixels.pixels() == lettered({"everybody in the", "last row"}).pixels());
    const Page narrower = page_of("everybody in the last row", just_wide_enough - 0.02);
    CHECK(narrower.pixels.pixels() == lettered({"everybody in", "the last row"}).pixels());
}

TEST_CASE("a number stays with what it counts", "[report][property]") {
    const Page page = page_of("background 1.0 % blurred", width_of("background 1.0") + 0.01);
    CHECK(page.pixels.pixels() == lettered({"background", "1.0 % blurred"}).pixels());
}

TEST_CASE("an f-number is not broken at its stroke, nor a number off what stands before it",
          "[report][property]") {
    const Page aperture = page_of("all fine from f/2.8 on", width_of("all fine from f/") + 0.01);
    CHECK(aperture.pixels.pixels() == lettered({"all fine from", "f/2.8 on"}).pixels());
    const Page name = page_of("Wolfram Hold 28.", width_of("Wolfram Hold") + 0.01);
    CHECK(name.pixels.pixels() == lettered({"Wolfram", "Hold 28."}).pixels());
    const Page too_wide = page_of("Featherstonehaugh 28", width_of("Featherstonehaugh 2") + 0.01);
    CHECK(too_wide.pixels.pixels() == lettered({"Featherstonehaugh", "28"}).pixels());
}

TEST_CASE("a name from right to left keeps its number, and is kept apart whole",
          "[report][property]") {
    // Read from the right: its number is what stands farthest to the left.
    const std::string first = "\u05d0\u05d1\u05d9", last = "\u05d1\u05df\u05e9\u05d7\u05e8";
    const Page page =
        page_of(kept_apart(first + " " + last + " 33"), width_of(first + " " + last) + 0.01);
    CHECK(page.lines == 2);
    CHECK(page.pixels.pixels() == lettered({first, kept_apart(last + " 33")}).pixels());
}

TEST_CASE("no line of a paragraph is wider than its column", "[report][property]") {
    const std::string sentence = "step back one metre or stop down to f/5.6 and all forty are fine";
    for (const double width_px : {60.0, 95.0, 140.0, 230.0}) {
        const Page page = page_of(sentence + " unpronounceablylongsurname", width_px);
        CHECK(last_inked_column(page.pixels) <= static_cast<int>(left_px + width_px));
        CHECK(last_inked_column(page.pixels) > 0);
    }
}

TEST_CASE("a paragraph of nothing takes no line", "[report][property]") {
    for (const char* nothing : {"", "  \n "}) {
        const Page page = page_of(nothing, 100);
        CHECK(page.lines == 0);
        CHECK(last_inked_column(page.pixels) == -1);
    }
}

TEST_CASE("letters of a script that joins them are joined", "[report][property]") {
    // Seen, its tail drawn only at the end of a word; U+200C keeps neighbours apart.
    const double joined = width_of("\u0633\u0633\u0633");
    const double apart = width_of("\u0633\u200c\u0633\u200c\u0633");
    CHECK(joined < 0.9 * apart);
}

TEST_CASE("a name from right to left stands in its sentence from left to right",
          "[report][property]") {
    // Alef is as high as a capital, seen half as high: which end is the higher one?
    const auto rises_at_its_end = [](const std::string& text) {
        const Image<Rgb8> page = lettered({text});
        const auto top_of = [&](int column) {
            int y = 0;
            while (y + 1 < page.height_px() && page.at(column, y) == paper)
                ++y;
            return y;
        };
        return top_of(last_inked_column(page) - 1) + 2 < top_of(static_cast<int>(left_px) + 2);
    };
    CHECK(rises_at_its_end("\u0627\u0633"));  // Read from the right, alef comes first …
    CHECK_FALSE(rises_at_its_end("\u0633\u0627"));
    CHECK(rises_at_its_end("\u0633 I"));  // … and what follows the name stands to its right.
}

TEST_CASE("a text is cut with dots where it would be too wide", "[report][property]") {
    Canvas canvas(page_px, page_px, paper);
    canvas.text(left_px, 20, "Wilhelmina Featherstonehaugh", lettering, 70);
    CHECK(last_inked_column(canvas.pixels(1)) <= static_cast<int>(left_px) + 70);
    const std::vector<std::string> beginnings{"Wilhelmin…", "Wilhelmina…", "Wilhelmina …",
                                              "Wilhelmina F…", "Wilhelmina Fe…"};
    CHECK(std::ranges::any_of(beginnings, [&](const std::string& beginning) {
        return lettered({beginning}).pixels() == canvas.pixels(1).pixels();
    }));
}
