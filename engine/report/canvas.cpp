#include "report/canvas.h"

#include "report/utf8.h"

#include <cairo.h>

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <iterator>
#include <numbers>
#include <string>
#include <vector>

namespace backrow::report {

struct Canvas::Surface {
    Surface(int width_px, int height_px)
        : image{cairo_image_surface_create(CAIRO_FORMAT_RGB24, width_px, height_px)},
          pen{cairo_create(image)} {}
    Surface(const Surface&) = delete;
    Surface& operator=(const Surface&) = delete;
    ~Surface() {
        cairo_destroy(pen);
        cairo_surface_destroy(image);
    }
    cairo_surface_t* image;
    cairo_t* pen;
};

namespace {

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

void Canvas::copy_into(Image<Rgb8>& picture, int left, int top) const {
    cairo_surface_flush(surface_->image);
    const int width_px = cairo_image_surface_get_width(surface_->image);
    const int height_px = cairo_image_surface_get_height(surface_->image);
    constexpr std::ptrdiff_t bytes_a_pixel = sizeof(std::uint32_t);
    const int row_bytes = cairo_image_surface_get_stride(surface_->image);
    const unsigned char* bytes = cairo_image_surface_get_data(surface_->image);
    for (int y = 0; y < height_px; ++y)
        for (int x = 0; x < width_px; ++x) {
            // RGB24 keeps a pixel as one number, red above green above blue, whatever the machine.
            std::uint32_t packed = 0;
            std::memcpy(&packed,
                        bytes + static_cast<std::ptrdiff_t>(y) * row_bytes +
                            static_cast<std::ptrdiff_t>(x) * bytes_a_pixel,
                        sizeof packed);
            picture.at(left + x, top + y) = {static_cast<std::uint8_t>(packed >> 16),
                                             static_cast<std::uint8_t>(packed >> 8),
                                             static_cast<std::uint8_t>(packed)};
        }
}

}  // namespace backrow::report
