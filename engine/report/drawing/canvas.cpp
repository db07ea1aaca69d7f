#include "report/drawing/canvas.h"

#include "report/text/utf8.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <iterator>
#include <numbers>
#include <string>
#include <vector>

namespace backrow::report {

/// A recording, to be played back onto pixels or a page.
struct Canvas::Surface {
    Surface(int width, int height)
        : width_px{width}, height_px{height}, extent{0, 0, static_cast<double>(width),
                                                     static_cast<double>(height)},
          recording{cairo_recording_surface_create(CAIRO_CONTENT_COLOR, &extent)}, pen{cairo_create(
                                                                                       recording)} {
    }
    Surface(const Surface&) = delete;
    Surface& operator=(const Surface&) = delete;
    ~Surface() {
        cairo_destroy(pen);
        cairo_surface_destroy(recording);
    }
    int width_px;
    int height_px;
    cairo_rectangle_t extent;
    cairo_surface_t* recording;
    cairo_t* pen;
};

namespace {

/// Plays the recording back.
void play(cairo_surface_t* recording, cairo_surface_t* target, double scale) {
    cairo_t* pen = cairo_create(target);
    cairo_scale(pen, scale, scale);
    cairo_set_source_surface(pen, recording, 0, 0);
    cairo_paint(pen);
    cairo_destroy(pen);
}

cairo_status_t append(void* bytes, const unsigned char* more, unsigned int count) {
    const auto* start = reinterpret_cast<const std::byte*>(more);
    auto* file = static_cast<Bytes*>(bytes);
    file->insert(file->end(), start, start + count);
    return CAIRO_STATUS_SUCCESS;
}

void choose_colour(cairo_t* pen, Rgb8 colour) {
    constexpr double white = 255;
    cairo_set_source_rgb(pen, colour.r / white, colour.g / white, colour.b / white);
}

void choose_lettering(cairo_t* pen, const Lettering& lettering) {
    cairo_select_font_face(pen, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                           lettering.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(pen, lettering.size_px);
}

double advance_px(cairo_t* pen, const std::string& text) {
    cairo_text_extents_t extents;
    cairo_text_extents(pen, text.c_str(), &extents);
    return extents.x_advance;
}

std::string fitted(cairo_t* pen, const std::string& text, double most_px) {
    if (advance_px(pen, text) <= most_px)
        return text;
    const auto letters = code_points(text);
    const auto shortened = [&](std::ptrdiff_t count) {
        return utf8_from({letters.begin(), letters.begin() + count}) + "…";
    };
    // The longest beginning that fits with the dots; found by halving, for names may be long.
    std::ptrdiff_t fits = 0;
    std::ptrdiff_t too_long = std::ssize(letters);
    while (too_long - fits > 1) {
        const std::ptrdiff_t middle = fits + (too_long - fits) / 2;
        (advance_px(pen, shortened(middle)) <= most_px ? fits : too_long) = middle;
    }
    return shortened(fits);
}

/// A curve between two corners whose middle lies off the chord; a cubic's middle lies three
/// quarters of the way to its two handles.
void bulge(cairo_t* pen, double from_x, double to_x, double y, double off) {
    const double handle = y + off * 4 / 3;
    cairo_curve_to(pen, from_x + (to_x - from_x) / 4, handle, to_x - (to_x - from_x) / 4, handle,
                   to_x, y);
}

void trace(cairo_t* pen, const std::vector<Point2>& points) {
    cairo_new_sub_path(pen);
    for (const Point2& point : points)
        cairo_line_to(pen, point.x, point.y);
}

/// Reads the pixels of an image that has been drawn to its end.
Image<Rgb8> pixels_of(cairo_surface_t* image) {
    constexpr std::ptrdiff_t bytes_a_pixel = sizeof(std::uint32_t);
    const int row_bytes = cairo_image_surface_get_stride(image);
    const unsigned char* bytes = cairo_image_surface_get_data(image);
    Image<Rgb8> picture(cairo_image_surface_get_width(image),
                        cairo_image_surface_get_height(image));
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x) {
            // RGB24 keeps a pixel as one number, red above green above blue, whatever the machine.
            std::uint32_t packed = 0;
            std::memcpy(&packed,
                        bytes + static_cast<std::ptrdiff_t>(y) * row_bytes +
                            static_cast<std::ptrdiff_t>(x) * bytes_a_pixel,
                        sizeof packed);
            picture.at(x, y) = {static_cast<std::uint8_t>(packed >> 16),
                                static_cast<std::uint8_t>(packed >> 8),
                                static_cast<std::uint8_t>(packed)};
        }
    return picture;
}

void stroke(cairo_t* pen, Rgb8 colour, double line_px) {
    choose_colour(pen, colour);
    cairo_set_line_width(pen, line_px);
    cairo_stroke(pen);
}

}  // namespace

Canvas::Canvas(int width_px, int height_px, Rgb8 background)
    : surface_{std::make_unique<Surface>(width_px, height_px)} {
    cairo_t* pen = surface_->pen;
    choose_colour(pen, background);
    cairo_paint(pen);
    cairo_set_antialias(pen, CAIRO_ANTIALIAS_GRAY);
    cairo_set_line_cap(pen, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(pen, options);
    cairo_font_options_destroy(options);
}

Canvas::Canvas(Canvas&&) noexcept = default;
Canvas& Canvas::operator=(Canvas&&) noexcept = default;
Canvas::~Canvas() = default;

double Canvas::text_width_px(const std::string& text, const Lettering& lettering) {
    choose_lettering(surface_->pen, lettering);
    return advance_px(surface_->pen, on_one_line(text));
}

void Canvas::text(double x, double baseline_y, const std::string& text, const Lettering& lettering,
                  double most_px) {
    cairo_t* pen = surface_->pen;
    choose_lettering(pen, lettering);
    choose_colour(pen, lettering.colour);
    cairo_move_to(pen, x, baseline_y);
    cairo_show_text(pen, fitted(pen, on_one_line(text), most_px).c_str());
    cairo_new_path(pen);
}

void Canvas::almond(double left, double right, double y, double rise, double fall, Rgb8 colour,
                    double line_px) {
    cairo_t* pen = surface_->pen;
    cairo_move_to(pen, left, y);
    bulge(pen, left, right, y, -rise);
    bulge(pen, right, left, y, fall);
    cairo_close_path(pen);
    stroke(pen, colour, line_px);
}

void Canvas::lid(double left, double right, double y, double fall, Rgb8 colour, double line_px) {
    cairo_t* pen = surface_->pen;
    cairo_move_to(pen, left, y);
    bulge(pen, left, right, y, fall);
    stroke(pen, colour, line_px);
}

void Canvas::disc(double x, double y, double radius, Rgb8 colour) {
    cairo_arc(surface_->pen, x, y, radius, 0, 2 * std::numbers::pi);
    choose_colour(surface_->pen, colour);
    cairo_fill(surface_->pen);
}

void Canvas::line(double from_x, double from_y, double to_x, double to_y, Rgb8 colour,
                  double line_px) {
    cairo_move_to(surface_->pen, from_x, from_y);
    cairo_line_to(surface_->pen, to_x, to_y);
    stroke(surface_->pen, colour, line_px);
}

void Canvas::text_along(const Point2& middle, double climb_rad, const std::string& text,
                        const Lettering& lettering) {
    cairo_t* pen = surface_->pen;
    choose_lettering(pen, lettering);
    choose_colour(pen, lettering.colour);
    const std::string words = on_one_line(text);
    cairo_text_extents_t capital;
    cairo_text_extents(pen, "H", &capital);
    cairo_save(pen);
    cairo_translate(pen, middle.x, middle.y);
    cairo_rotate(pen, -climb_rad);
    cairo_move_to(pen, -advance_px(pen, words) / 2, capital.height / 2);
    cairo_show_text(pen, words.c_str());
    cairo_new_path(pen);
    cairo_restore(pen);
}

void Canvas::polyline(const std::vector<Point2>& points, bool closed, const Stroke& line) {
    cairo_t* pen = surface_->pen;
    trace(pen, points);
    if (closed)
        cairo_close_path(pen);
    cairo_set_dash(pen, line.dashes_px.data(), static_cast<int>(line.dashes_px.size()), 0);
    cairo_set_line_cap(pen, line.dashes_px.empty() ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    stroke(pen, line.colour, line.width_px);
    cairo_set_dash(pen, nullptr, 0, 0);
    cairo_set_line_cap(pen, CAIRO_LINE_CAP_ROUND);
}

void Canvas::fill(const std::vector<std::vector<Point2>>& outlines, Rgb8 colour) {
    cairo_t* pen = surface_->pen;
    for (const std::vector<Point2>& outline : outlines) {
        trace(pen, outline);
        cairo_close_path(pen);
    }
    cairo_set_fill_rule(pen, CAIRO_FILL_RULE_EVEN_ODD);
    choose_colour(pen, colour);
    cairo_fill(pen);
}

Image<Rgb8> Canvas::pixels(int scale) const {
    cairo_surface_t* image = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, surface_->width_px * scale, surface_->height_px * scale);
    play(surface_->recording, image, scale);
    cairo_surface_flush(image);
    const Image<Rgb8> picture = pixels_of(image);
    cairo_surface_destroy(image);
    return picture;
}

void Canvas::copy_into(Image<Rgb8>& picture, int left, int top) const {
    const Image<Rgb8> own = pixels(1);
    for (int y = 0; y < own.height_px(); ++y)
        for (int x = 0; x < own.width_px(); ++x)
            picture.at(left + x, top + y) = own.at(x, y);
}

Bytes Canvas::svg_bytes() const {
    Bytes bytes;
    cairo_surface_t* page = cairo_svg_surface_create_for_stream(append, &bytes, surface_->width_px,
                                                                surface_->height_px);
    play(surface_->recording, page, 1);
    cairo_surface_finish(page);
    cairo_surface_destroy(page);
    return bytes;
}

Bytes Canvas::pdf_bytes(const std::string& title) const {
    Bytes bytes;
    cairo_surface_t* page = cairo_pdf_surface_create_for_stream(append, &bytes, surface_->width_px,
                                                                surface_->height_px);
    cairo_pdf_surface_set_metadata(page, CAIRO_PDF_METADATA_TITLE, on_one_line(title).c_str());
    // Left alone, the library would note the time.
    cairo_pdf_surface_set_metadata(page, CAIRO_PDF_METADATA_CREATE_DATE, "");
    play(surface_->recording, page, 1);
    cairo_surface_finish(page);
    cairo_surface_destroy(page);
    return bytes;
}

}  // namespace backrow::report
