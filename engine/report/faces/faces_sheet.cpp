#include "report/faces/faces_sheet.h"

#include "report/drawing/canvas.h"
#include "report/drawing/verdict_mark.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>

namespace backrow::report {
namespace {

constexpr Rgb8 sheet_grey{52, 52, 52};
constexpr Rgb8 tile_grey{66, 66, 66};
constexpr Rgb8 ink{236, 236, 236};
constexpr Rgb8 faint_ink{178, 178, 178};

constexpr int margin_px = 28;
constexpr int gap_px = 24;
constexpr int header_px = 72;
constexpr int footer_px = 52;
constexpr int caption_px = 80;
constexpr int least_column_px = 240;
constexpr int least_sheet_width_px = 520;
constexpr int empty_tile_height_px = 120;
constexpr double pleasant_width_to_height = 1.5;

constexpr int above_enlarged_px = 6;

int height_of(const FacePicture& face) {
    const int face_px = face.pixels.empty() ? empty_tile_height_px : face.pixels.height_px();
    return face.enlarged.empty() ? face_px
                                 : face_px + above_enlarged_px + face.enlarged.height_px();
}

int width_of(const FacePicture& face) {
    const int face_px = face.pixels.empty() ? least_column_px : face.pixels.width_px();
    return std::max(face_px, face.enlarged.width_px());
}

/// Which faces stand on the sheet and where.
struct Layout {
    int columns = 1;
    int column_px = least_column_px;
    std::vector<int> row_tops_px{};
    int width_px = least_sheet_width_px;
    int height_px = header_px + footer_px;
    std::size_t faces = 0;  ///< Those that fit, counted from the first.
};

/// Lays faces in this many columns for as long as rows fit.
Layout in_columns(std::span<const FacePicture* const> faces, int columns, int column_px) {
    Layout layout{.columns = columns, .column_px = column_px};
    layout.width_px = std::max(least_sheet_width_px,
                               2 * margin_px + columns * column_px + (columns - 1) * gap_px);
    const auto in_a_row = static_cast<std::size_t>(columns);
    while (layout.faces < faces.size()) {
        const auto row =
            faces.subspan(layout.faces, std::min(in_a_row, faces.size() - layout.faces));
        int tallest_px = 0;
        for (const FacePicture* face : row)
            tallest_px = std::max(tallest_px, height_of(*face));
        const int height_px = layout.height_px + tallest_px + caption_px;
        if (height_px > longest_sheet_side_px ||
            static_cast<long>(height_px) * layout.width_px > most_sheet_pixels)
            break;
        layout.row_tops_px.push_back(layout.height_px - footer_px);
        layout.height_px = height_px;
        layout.faces += row.size();
    }
    return layout;
}

/// How far a sheet is from the wished proportion, the same for too wide and too tall.
double awkwardness(const Layout& layout) {
    return std::abs(std::log(static_cast<double>(layout.width_px) / layout.height_px /
                             pleasant_width_to_height));
}

/// The most faces first, then the pleasantest shape.
Layout best_layout(std::span<const FacePicture* const> faces) {
    int column_px = least_column_px;
    for (const FacePicture* face : faces)
        column_px = std::max(column_px, width_of(*face));
    const int most_columns =
        std::clamp((longest_sheet_side_px - 2 * margin_px + gap_px) / (column_px + gap_px), 1,
                   std::max(1, static_cast<int>(faces.size())));
    Layout best = in_columns(faces, 1, column_px);
    for (int columns = 2; columns <= most_columns; ++columns) {
        const Layout layout = in_columns(faces, columns, column_px);
        if (layout.faces > best.faces ||
            (layout.faces == best.faces && awkwardness(layout) < awkwardness(best)))
            best = layout;
    }
    return best;
}

/// A picture that would not fit even alone has no place.
bool fits_alone(const FacePicture& face) {
    const FacePicture* alone = &face;
    return width_of(face) + 2 * margin_px <= longest_sheet_side_px &&
           in_columns({&alone, 1}, 1, std::max(least_column_px, width_of(face))).faces == 1;
}

void place(Image<Rgb8>& sheet, const Image<Rgb8>& picture, int left, int top) {
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x)
            sheet.at(left + x, top + y) = picture.at(x, y);
}

/// Nearly the grey of the sheet.
Image<Rgb8> set_back(Image<Rgb8> picture) {
    for (Rgb8& pixel : picture.pixels()) {
        const int grey = (pixel.r * 3 + pixel.g * 6 + pixel.b) / 10;
        const auto faded = static_cast<std::uint8_t>((grey + 2 * tile_grey.g) / 3);
        pixel = {faded, faded, faded};
    }
    return picture;
}

std::string blur_words(const FacePicture& face) {
    if (!face.predicted_blur_px)
        return face.measured_blur_px ? fmt::format("blur {:.1f} px", *face.measured_blur_px)
                                     : std::string{};
    if (!std::isfinite(*face.predicted_blur_px))
        return "no image behind the lens";
    std::string words = fmt::format("blur {:.1f} px predicted", *face.predicted_blur_px);
    if (face.measured_blur_px && std::isfinite(*face.measured_blur_px))
        words += fmt::format(", {:.1f} px measured", *face.measured_blur_px);
    return words;
}

Canvas caption(const FacePicture& face, int width_px) {
    Canvas canvas(width_px, caption_px, sheet_grey);
    canvas.text(0, 23, face.name, {.size_px = 15, .bold = true, .colour = ink}, width_px);
    canvas.text(0, 42, blur_words(face), {.size_px = 12, .bold = false, .colour = faint_ink},
                width_px);
    if (face.verdict)
        draw_verdict_mark(canvas, 0, 50, *face.verdict);
    const double word_x = face.verdict ? verdict_mark_width_px + 7 : 0;
    const std::string words = !face.trouble.empty() ? face.trouble
                              : face.verdict        ? std::string{to_word(*face.verdict)}
                                                    : std::string{};
    canvas.text(word_x, 62, words, {.size_px = 13, .bold = false, .colour = ink},
                width_px - word_x);
    return canvas;
}

Canvas empty_tile(int width_px) {
    Canvas canvas(width_px, empty_tile_height_px, tile_grey);
    canvas.text(14, empty_tile_height_px / 2.0 + 5, "outside the picture",
                {.size_px = 13, .bold = false, .colour = faint_ink}, width_px - 28);
    return canvas;
}

void draw_face(Image<Rgb8>& sheet, const FacePicture& face, int left, int top, int row_height_px,
               int column_px) {
    // Pictures of a row stand on one line, captions right under them.
    const int picture_top = top + row_height_px - height_of(face);
    if (face.pixels.empty())
        empty_tile(column_px).copy_into(sheet, left, picture_top);
    else
        place(sheet, face.verdict == plan::Verdict::hidden ? set_back(face.pixels) : face.pixels,
              left, picture_top);
    place(sheet, face.enlarged, left, top + row_height_px - face.enlarged.height_px());
    caption(face, column_px).copy_into(sheet, left, top + row_height_px);
}

void draw_header_and_footer(Image<Rgb8>& sheet, const std::string& title,
                            const std::string& scale_note, std::size_t left_out) {
    const int width_px = sheet.width_px() - 2 * margin_px;
    Canvas header(width_px, header_px, sheet_grey);
    header.text(0, 44, title.empty() ? "Faces" : title,
                {.size_px = 21, .bold = true, .colour = ink}, width_px);
    header.copy_into(sheet, margin_px, 0);

    Canvas footer(width_px, footer_px, sheet_grey);
    std::string note = scale_note;
    if (left_out > 0)
        note = fmt::format("{} more {} not fit. {}", left_out,
                           left_out == 1 ? "face does" : "faces do", note);
    footer.text(0, 26, note, {.size_px = 13, .bold = false, .colour = faint_ink}, width_px);
    footer.copy_into(sheet, margin_px, sheet.height_px() - footer_px);
}

}  // namespace

Image<Rgb8> faces_sheet(const std::vector<FacePicture>& faces, const std::string& title,
                        const std::string& note) {
    std::vector<const FacePicture*> fitting;
    for (const FacePicture& face : faces)
        if (fits_alone(face))
            fitting.push_back(&face);
    const Layout layout = best_layout(fitting);

    Image<Rgb8> sheet(layout.width_px, layout.height_px, sheet_grey);
    for (std::size_t i = 0; i < layout.faces; ++i) {
        const auto columns = static_cast<std::size_t>(layout.columns);
        const std::size_t row = i / columns;
        const int top = layout.row_tops_px[row];
        const int next_top = row + 1 < layout.row_tops_px.size() ? layout.row_tops_px[row + 1]
                                                                 : layout.height_px - footer_px;
        const int left = margin_px + static_cast<int>(i % columns) * (layout.column_px + gap_px);
        draw_face(sheet, *fitting[i], left, top, next_top - top - caption_px, layout.column_px);
    }
    draw_header_and_footer(sheet, title, note, faces.size() - layout.faces);
    return sheet;
}

}  // namespace backrow::report
