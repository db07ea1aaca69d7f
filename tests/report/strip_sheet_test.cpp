#include "report/strip/strip_sheet.h"

#include "report/drawing/sheet_limits.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace backrow;
using namespace backrow::report;

namespace {

constexpr Rgb8 frame_colour{200, 30, 60};
constexpr Rgb8 face_colour{20, 160, 90};

std::vector<Box> boxes_of(const StripLayout& layout) {
    std::vector<Box> boxes{layout.title, layout.foot};
    boxes.insert(boxes.end(), layout.column_heads.begin(), layout.column_heads.end());
    boxes.insert(boxes.end(), layout.row_heads.begin(), layout.row_heads.end());
    for (const StripCell& cell : layout.cells)
        boxes.insert(boxes.end(), {cell.whole, cell.face, cell.caption});
    return boxes;
}

bool overlap(const Box& a, const Box& b) {
    return a.left < b.left + b.width && b.left < a.left + a.width && a.top < b.top + b.height &&
           b.top < a.top + a.height;
}

Image<Rgb8> plain(const Box& box, Rgb8 colour) {
    return {box.width, box.height, colour};
}

/// A sheet of plain frames and faces.
StripSheet plain_sheet(const StripLayout& layout, const StripShape& shape) {
    StripSheet sheet{.title = "Harbour choir", .below_title = "Focus on Odile"};
    sheet.columns.assign(shape.columns, {.title = "f/2", .note = "as the scene has it"});
    sheet.rows.assign(shape.rows, {.title = "9.4 m", .note = "85 mm"});
    for (const StripCell& cell : layout.cells)
        sheet.pictures.push_back({.whole = plain(cell.whole, frame_colour),
                                  .face = plain(cell.face, face_colour),
                                  .face_left = 0.4,
                                  .face_top = 0.2,
                                  .face_right = 0.6,
                                  .face_bottom = 0.5,
                                  .setting = "f/2, 9.4 m, 85 mm",
                                  .mark = plan::Verdict::soft,
                                  .verdict = "Priya soft, 3.6 arcmin",
                                  .note = "background blur 1.03 %"});
    sheet.foot = {"Grades"};
    return sheet;
}

long pixels_of(const Image<Rgb8>& picture, Rgb8 colour) {
    return std::count(picture.pixels().begin(), picture.pixels().end(), colour);
}

}  // namespace

TEST_CASE("nothing on a strip overlaps, and all of it lies on the sheet", "[report][property]") {
    const int width_px = GENERATE(700, 1400, 1920, 6000);
    const std::size_t columns = GENERATE(1, 2, 4, 8);
    const std::size_t rows = GENERATE(1, 3, 8);
    const double height_to_width = GENERATE(0.3, 2.0 / 3, 1.5);
    CAPTURE(width_px, columns, rows, height_to_width);
    const auto layout = strip_layout({.width_px = width_px,
                                      .columns = columns,
                                      .rows = rows,
                                      .height_to_width = height_to_width,
                                      .notes = 2,
                                      .foot_lines = 4});
    if (!layout)
        return;
    CHECK(layout->width_px == width_px);
    CHECK(layout->cells.size() == columns * rows);
    CHECK(layout->column_heads.size() == columns);
    const std::vector<Box> boxes = boxes_of(*layout);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const Box& box = boxes[i];
        const bool on_sheet = box.left >= 0 && box.top >= 0 && box.width > 0 && box.height > 0 &&
                              box.left + box.width <= layout->width_px &&
                              box.top + box.height <= layout->height_px;
        CAPTURE(i, box.left, box.top, box.width, box.height);
        CHECK(on_sheet);
        for (std::size_t j = 0; j < i; ++j)
            if (overlap(box, boxes[j]))
                FAIL("overlaps box " << j);
    }
}

TEST_CASE("a strip is refused where it could not be read, or would be beyond all limits",
          "[report][property]") {
    const auto made = [](int width_px, std::size_t columns, double height_to_width) {
        return strip_layout({.width_px = width_px,
                             .columns = columns,
                             .rows = 2,
                             .height_to_width = height_to_width})
            .has_value();
    };
    CHECK(made(least_strip_width_px(8, 2), 8, 0.6));
    CHECK_FALSE(made(least_strip_width_px(8, 2) - 1, 8, 0.6));
    CHECK_FALSE(made(longest_sheet_side_px + 1, 4, 0.6));
    CHECK_FALSE(made(1920, 2, 300));
    CHECK_FALSE(made(1920, 2, 1e300));
    CHECK_FALSE(made(15000, 2, 0.9));
}

TEST_CASE("the frames have the shape of the camera's picture", "[report][property]") {
    for (const double height_to_width : {0.5, 2.0 / 3, 1.5}) {
        const auto layout = strip_layout(
            {.width_px = 1600, .columns = 3, .rows = 1, .height_to_width = height_to_width});
        REQUIRE(layout);
        const Box& whole = layout->cells[0].whole;
        CHECK(std::abs(whole.height - whole.width * height_to_width) <= 0.5);
    }
}

TEST_CASE("faces stand beside their frames where the sheet would be a tower",
          "[report][property]") {
    const auto beside = [](std::size_t columns, std::size_t rows) {
        const auto layout = strip_layout({.width_px = 1920, .columns = columns, .rows = rows});
        REQUIRE(layout);
        return layout->faces_beside;
    };
    CHECK(beside(2, 4));
    CHECK_FALSE(beside(4, 1));
}

TEST_CASE("faces are shown no larger than the camera has them, and no smaller than half",
          "[report][property]") {
    const auto layout = strip_layout({.width_px = 1400, .columns = 4, .rows = 1});
    REQUIRE(layout);
    const int room_px = layout->cells[0].face.height;
    CHECK(strip_face_scale(layout->cells[0].face, 50, 6000) == 1);
    const double fitting = strip_face_scale(layout->cells[0].face, room_px, 6000);
    CHECK(fitting * room_px <= room_px);
    CHECK(fitting > 0.7);
    CHECK(strip_face_scale(layout->cells[0].face, 3000, 6000) == 0.5);
    // Of a camera with few pixels no more is shown than it has.
    CHECK(strip_face_scale(layout->cells[0].face, 10, 100) * 100 >= layout->cells[0].face.width);
}

TEST_CASE("every pixel of a frame and of a face is one of the sheet, but for the outline",
          "[report][property]") {
    const StripShape shape{.width_px = 900, .columns = 2, .rows = 2};
    const auto layout = strip_layout(shape);
    REQUIRE(layout);
    const Image<Rgb8> sheet = strip_sheet(plain_sheet(*layout, shape), *layout).pixels(1);
    REQUIRE(sheet.width_px() == layout->width_px);
    REQUIRE(sheet.height_px() == layout->height_px);
    const Box& whole = layout->cells[0].whole;
    const Box& face = layout->cells[0].face;
    CHECK(pixels_of(sheet, face_colour) == 4L * face.width * face.height);
    // Four sides of a fifth of the width and three tenths of the height, two pixels wide, and the
    // corners.
    const double sides_px = 2 * (0.2 * whole.width + 0.3 * whole.height + 2 + 4);
    const double missing =
        4.0 * whole.width * whole.height - static_cast<double>(pixels_of(sheet, frame_colour));
    CHECK(std::abs(missing - 4 * 2 * sides_px) < 4 * 20);
    CHECK(sheet.at(whole.left, whole.top) == frame_colour);
    CHECK(sheet.at(whole.left - 1, whole.top) != frame_colour);
}

TEST_CASE("an outline that leaves its frame is cut off there", "[report][property]") {
    const StripShape shape{.width_px = 900, .columns = 2, .rows = 1};
    const auto layout = strip_layout(shape);
    REQUIRE(layout);
    StripSheet inside = plain_sheet(*layout, shape);
    StripSheet outside = inside;
    outside.pictures[0].face_left = -3;
    outside.pictures[0].face_bottom = 5;
    const auto one = strip_sheet(inside, *layout).pixels(1);
    const auto other = strip_sheet(outside, *layout).pixels(1);
    const Box& whole = layout->cells[0].whole;
    for (int y = 0; y < one.height_px(); ++y)
        for (int x = 0; x < one.width_px(); ++x) {
            const bool in_frame = x >= whole.left && x < whole.left + whole.width &&
                                  y >= whole.top && y < whole.top + whole.height;
            if (!in_frame && one.at(x, y) != other.at(x, y))
                FAIL("drawn over " << x << ", " << y);
        }
}

TEST_CASE("all words of a strip are lettered, and long ones stay in their boxes",
          "[report][property]") {
    const StripShape shape{.width_px = 900, .columns = 2, .rows = 2, .notes = 2};
    const auto layout = strip_layout(shape);
    REQUIRE(layout);
    const StripSheet sheet = plain_sheet(*layout, shape);
    const auto plain_one = strip_sheet(sheet, *layout).pixels(1);
    const auto differs = [&](const auto& change) {
        StripSheet changed = sheet;
        change(changed);
        return strip_sheet(changed, *layout).pixels(1).pixels() != plain_one.pixels();
    };
    CHECK(differs([](StripSheet& s) { s.title = "Choir"; }));
    CHECK(differs([](StripSheet& s) { s.below_title = "Focus"; }));
    CHECK(differs([](StripSheet& s) { s.columns[1].note = "1 stop"; }));
    CHECK(differs([](StripSheet& s) { s.rows[1].title = "12 m"; }));
    CHECK(differs([](StripSheet& s) { s.pictures[3].setting = "f/4"; }));
    CHECK(differs([](StripSheet& s) { s.pictures[3].verdict = "Bram"; }));
    CHECK(differs([](StripSheet& s) { s.pictures[3].mark = plan::Verdict::fine; }));
    CHECK(differs([](StripSheet& s) { s.pictures[3].note = "background"; }));
    CHECK(differs([](StripSheet& s) { s.pictures[3].complaint = "9 of 12 faces"; }));
    CHECK(differs([](StripSheet& s) { s.foot = {"Blur"}; }));

    StripSheet wordy = sheet;
    wordy.pictures[0].verdict = std::string(3000, 'W');
    const auto long_one = strip_sheet(wordy, *layout).pixels(1);
    const Box& caption = layout->cells[0].caption;
    for (int y = 0; y < long_one.height_px(); ++y)
        for (int x = caption.left + caption.width; x < long_one.width_px(); ++x)
            if (long_one.at(x, y) != plain_one.at(x, y))
                FAIL("the first caption reaches " << x << ", " << y);
}
