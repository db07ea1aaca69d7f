#include "report/strip_layout.h"

#include "report/sheet_limits.h"

#include <algorithm>
#include <cmath>

namespace backrow::report {
namespace {

constexpr double least_column_px = 190;
constexpr double usual_column_px = 360;
constexpr int least_sheet_px = 700;

// Lengths at the usual size of type.
constexpr double margin = 32;
constexpr double gap = 18;
constexpr double between_rows = 26;
constexpr double row_head_width = 84;
constexpr double title_height = 74;
constexpr double column_head_height = 52;
constexpr double between_pictures = 6;
constexpr double caption_height = 84;
constexpr double foot_height = 62;
constexpr double least_type = 0.85;
constexpr double largest_type = 2.5;

// A face picture is no higher than this share of its width, however upright the frame.
constexpr double highest_face_picture = 0.8;
// A face has this much of its own height round it.
constexpr double face_with_air = 1.3;

int whole(double length) {
    return static_cast<int>(std::lround(length));
}

double row_head_of(std::size_t rows) {
    return rows > 1 ? row_head_width : 0;
}

/// What a sheet of this width leaves to each column; what grows with the type goes off first.
double column_width(double width_px, std::size_t columns, std::size_t rows, double type) {
    const auto count = static_cast<double>(columns);
    return (width_px - type * (2 * margin + row_head_of(rows) + (count - 1) * gap)) / count;
}

/// Type in proportion to the columns, which are what the type leaves.
double type_for(const StripShape& shape) {
    const auto count = static_cast<double>(shape.columns);
    const double at_usual_size =
        usual_column_px * count + 2 * margin + row_head_of(shape.rows) + (count - 1) * gap;
    return std::clamp(shape.width_px / at_usual_size, least_type, largest_type);
}

}  // namespace

int least_strip_width_px(std::size_t columns, std::size_t rows) {
    const auto count = static_cast<double>(columns);
    return std::max(least_sheet_px, whole(least_column_px * count +
                                          least_type * (2 * margin + row_head_of(rows) +
                                                        (count - 1) * gap)));
}

std::optional<StripLayout> strip_layout(const StripShape& shape) {
    if (shape.width_px < least_strip_width_px(shape.columns, shape.rows) ||
        shape.width_px > longest_sheet_side_px)
        return std::nullopt;
    const double type = type_for(shape);
    const int column = static_cast<int>(
        std::floor(column_width(shape.width_px, shape.columns, shape.rows, type)));
    const double frame_height = std::max(1.0, column * shape.height_to_width);
    const double face_height = std::min(frame_height, highest_face_picture * column);
    const double row_height = frame_height + face_height +
                              type * (between_pictures + caption_height + between_rows);
    const double height = type * (title_height + column_head_height + foot_height) +
                          row_height * static_cast<double>(shape.rows);
    // Before anything becomes a whole number that might not hold it.
    if (!(height <= longest_sheet_side_px &&
          height * shape.width_px <= static_cast<double>(most_sheet_pixels)))
        return std::nullopt;

    StripLayout layout{
        .width_px = shape.width_px, .height_px = whole(height), .type = type, .title{}, .foot{}};
    const int left = whole(type * margin);
    const int inner = shape.width_px - 2 * left;
    layout.title = {left, 0, inner, whole(type * title_height)};
    layout.foot = {left, layout.height_px - whole(type * foot_height), inner,
                   whole(type * foot_height)};
    const int first_column = left + whole(type * row_head_of(shape.rows));
    const auto column_left = [&](std::size_t i) {
        return first_column + whole(static_cast<double>(i) * (column + type * gap));
    };
    for (std::size_t i = 0; i < shape.columns; ++i)
        layout.column_heads.push_back({column_left(i), layout.title.height, column,
                                       whole(type * column_head_height)});
    const double first_row = layout.title.height + whole(type * column_head_height);
    for (std::size_t j = 0; j < shape.rows; ++j) {
        const int top = whole(first_row + static_cast<double>(j) * row_height);
        if (shape.rows > 1)
            layout.row_heads.push_back({left, top, whole(type * (row_head_width - gap / 2)),
                                        whole(frame_height)});
        for (std::size_t i = 0; i < shape.columns; ++i) {
            StripCell cell{.whole = {column_left(i), top, column, whole(frame_height)},
                           .face{},
                           .caption{}};
            cell.face = {cell.whole.left,
                         top + cell.whole.height + whole(type * between_pictures), column,
                         whole(face_height)};
            cell.caption = {cell.whole.left, cell.face.top + cell.face.height, column,
                            whole(type * caption_height)};
            layout.cells.push_back(cell);
        }
    }
    return layout;
}

double strip_face_scale(const StripLayout& layout, double tallest_face_px, int frame_width_px) {
    constexpr double percent = 100;
    const Box& room = layout.cells.front().face;
    const double fits = room.height / (face_with_air * tallest_face_px);
    const double whole_percent = std::floor(percent * std::min(1.0, fits)) / percent;
    return std::max(whole_percent, static_cast<double>(room.width) / frame_width_px);
}

}  // namespace backrow::report
