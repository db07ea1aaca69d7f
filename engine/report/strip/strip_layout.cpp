#include "report/strip/strip_layout.h"

#include "report/drawing/sheet_limits.h"

#include <algorithm>
#include <cmath>

namespace backrow::report {
namespace {

constexpr double least_picture_px = 190;
constexpr double least_picture_beside_px = 280;
constexpr double usual_picture_px = 360;
constexpr int least_sheet_px = 700;

// Lengths at the usual size of type.
constexpr double margin = 32;
constexpr double gap = 18;
constexpr double between_rows = 26;
constexpr double row_head_width = 84;
constexpr double title_height = 74;
constexpr double column_head_height = 52;
constexpr double between_pictures = 6;
constexpr double caption_height = 48;
constexpr double note_height = 16;
constexpr double foot_line_height = 17;
constexpr double foot_margin = 14;
constexpr double least_type = 0.85;
constexpr double largest_type = 2.5;

// A face picture has the shape of the frame, but no more upright and no flatter than this: heights
// against its width.
constexpr double highest_face_picture = 0.8;
constexpr double flattest_face_picture = 0.5;
// A face has this much of its own height round it.
constexpr double face_with_air = 1.3;

constexpr double pleasant_width_to_height = 1.6;

int whole(double length) {
    return static_cast<int>(std::lround(length));
}

/// What of a sheet's width is not pictures, at the usual size of type.
double width_besides_pictures(std::size_t columns, std::size_t rows, bool faces_beside) {
    const auto count = static_cast<double>(columns);
    return 2 * margin + (rows > 1 ? row_head_width : 0) + (count - 1) * gap +
           (faces_beside ? count * between_pictures : 0);
}

double pictures_across(std::size_t columns, bool faces_beside) {
    return static_cast<double>(columns) * (faces_beside ? 2 : 1);
}

double least_width(std::size_t columns, std::size_t rows, bool faces_beside) {
    return (faces_beside ? least_picture_beside_px : least_picture_px) *
               pictures_across(columns, faces_beside) +
           least_type * width_besides_pictures(columns, rows, faces_beside);
}

/// The measures of one arrangement, before anything becomes a whole number that might not hold it.
struct Measures {
    bool faces_beside = false;
    double type = 1;
    double picture = 0;  ///< Width of a frame, a whole number.
    double frame_height = 0;
    double face_height = 0;
    double caption_height = 0;
    bool caption_under_face = false;
    double row_height = 0;
    double foot_height = 0;
    double height = 0;  ///< Of the sheet.
};

Measures measured(const StripShape& shape, bool faces_beside) {
    const double across = pictures_across(shape.columns, faces_beside);
    const double besides = width_besides_pictures(shape.columns, shape.rows, faces_beside);
    Measures at{.faces_beside = faces_beside};
    // Type in proportion to the pictures, which are what the type leaves.
    at.type = std::clamp(shape.width_px / (usual_picture_px * across + besides), least_type,
                         largest_type);
    at.picture = std::floor((shape.width_px - at.type * besides) / across);
    at.frame_height = std::max(1.0, std::round(at.picture * shape.height_to_width));
    at.face_height =
        std::round(at.picture *
                   std::clamp(shape.height_to_width, flattest_face_picture, highest_face_picture));
    at.caption_height = at.type * (caption_height + shape.notes * note_height);
    at.caption_under_face = faces_beside && at.face_height + at.caption_height <= at.frame_height;
    at.row_height = at.type * between_rows +
                    (faces_beside ? std::max(at.frame_height, at.face_height)
                                  : at.frame_height + at.type * between_pictures + at.face_height);
    if (!at.caption_under_face)
        at.row_height += at.caption_height;
    at.foot_height = at.type * (shape.foot_lines * foot_line_height + foot_margin);
    at.height = at.type * (title_height + column_head_height) +
                at.row_height * static_cast<double>(shape.rows) + at.foot_height;
    return at;
}

bool is_within_limits(const StripShape& shape, const Measures& at) {
    return at.height <= longest_sheet_side_px &&
           at.height * shape.width_px <= static_cast<double>(most_sheet_pixels);
}

/// How far a sheet is from the wished proportion, the same for too wide and too tall.
double awkwardness(const StripShape& shape, const Measures& at) {
    return std::abs(std::log(shape.width_px / at.height / pleasant_width_to_height));
}

StripCell cell_at(int left, int top, const Measures& at) {
    const int width = whole(at.picture);
    const int between = whole(at.type * between_pictures);
    StripCell cell{.whole = {left, top, width, whole(at.frame_height)}, .face{}, .caption{}};
    cell.face = at.faces_beside
                    ? Box{left + width + between, top, width, whole(at.face_height)}
                    : Box{left, top + cell.whole.height + between, width, whole(at.face_height)};
    cell.caption = {at.caption_under_face ? cell.face.left : left,
                    at.caption_under_face || !at.faces_beside
                        ? cell.face.top + cell.face.height
                        : top + std::max(cell.whole.height, cell.face.height),
                    at.faces_beside && !at.caption_under_face ? 2 * width + between : width,
                    whole(at.caption_height)};
    return cell;
}

StripLayout laid_out(const StripShape& shape, const Measures& at) {
    StripLayout layout{.width_px = shape.width_px,
                       .height_px = whole(at.height),
                       .type = at.type,
                       .faces_beside = at.faces_beside,
                       .title{},
                       .foot{}};
    const int left = whole(at.type * margin);
    const int inner = shape.width_px - 2 * left;
    layout.title = {left, 0, inner, whole(at.type * title_height)};
    layout.foot = {left, layout.height_px - whole(at.foot_height), inner, whole(at.foot_height)};
    const int first_column = left + whole(shape.rows > 1 ? at.type * row_head_width : 0);
    const double cell_width =
        at.faces_beside ? 2 * at.picture + at.type * between_pictures : at.picture;
    std::vector<int> lefts;
    for (std::size_t i = 0; i < shape.columns; ++i) {
        lefts.push_back(first_column +
                        static_cast<int>(static_cast<double>(i) * (cell_width + at.type * gap)));
        layout.column_heads.push_back({lefts.back(), layout.title.height,
                                       static_cast<int>(cell_width),
                                       whole(at.type * column_head_height)});
    }
    const double first_row = layout.title.height + whole(at.type * column_head_height);
    for (std::size_t j = 0; j < shape.rows; ++j) {
        const int top = whole(first_row + static_cast<double>(j) * at.row_height);
        if (shape.rows > 1)
            layout.row_heads.push_back({left, top, whole(at.type * (row_head_width - gap / 2)),
                                        whole(at.type * column_head_height)});
        for (const int column_left : lefts)
            layout.cells.push_back(cell_at(column_left, top, at));
    }
    return layout;
}

}  // namespace

int least_strip_width_px(std::size_t columns, std::size_t rows) {
    return std::max(least_sheet_px, whole(std::ceil(least_width(columns, rows, false))));
}

std::optional<StripLayout> strip_layout(const StripShape& shape) {
    if (shape.width_px < least_strip_width_px(shape.columns, shape.rows) ||
        shape.width_px > longest_sheet_side_px)
        return std::nullopt;
    const Measures under = measured(shape, false);
    const Measures beside = measured(shape, true);
    const bool has_room_beside = shape.width_px >= least_width(shape.columns, shape.rows, true);
    const Measures& better =
        has_room_beside && awkwardness(shape, beside) < awkwardness(shape, under) ? beside : under;
    if (!is_within_limits(shape, better))
        return std::nullopt;
    return laid_out(shape, better);
}

double strip_face_scale(const Box& room, double tallest_face_px, int frame_width_px) {
    constexpr double percent = 100;
    const double fits = room.height / (face_with_air * tallest_face_px);
    const double whole_percent = std::floor(percent * std::clamp(fits, 0.5, 1.0)) / percent;
    return std::max(whole_percent, static_cast<double>(room.width) / frame_width_px);
}

}  // namespace backrow::report
