#include "report/drawing/canvas.h"

#include "base/utf8.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <memory>
#include <numbers>
#include <string>
#include <string_view>
#include <utility>
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

/// Without hinting, in whole and in parts of pixels.
void choose_plain_fonts(PangoContext* context) {
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context, FALSE);
}

struct Unref {
    void operator()(void* object) const { g_object_unref(object); }
};

/// From byte to byte, the second not included.
using Stretch = std::pair<std::size_t, std::size_t>;

/// Has figures and no letters: "33", "2.8,", and what keeps a name apart counts for neither.
bool is_number(std::string_view word) {
    bool has_figure = false;
    for (const char32_t letter : code_points(word)) {
        const bool is_mark = letter < 0x80 ? std::isalpha(static_cast<int>(letter)) == 0
                                           : letter == 0x2068 || letter == 0x2069;
        if (!is_mark)
            return false;
        has_figure = has_figure || (letter >= U'0' && letter <= U'9');
    }
    return has_figure;
}

enum class KeptWhole { strokes, numbers_too };

/// Where a text must not be broken though it could be: after a stroke, and before a number alone.
std::vector<Stretch> without_breaks(std::string_view text, KeptWhole kept) {
    const auto continues_letter = [&](std::size_t at) {
        return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xc0) == 0x80;
    };
    std::vector<Stretch> stretches;
    for (std::size_t at = 0; at + 1 < text.size(); ++at) {
        const std::string_view rest = text.substr(at + 1);
        const bool is_before_number = kept == KeptWhole::numbers_too && text[at] == ' ' &&
                                      is_number(rest.substr(0, rest.find(' ')));
        if (text[at] != '/' && !is_before_number)
            continue;
        // With the whole of the letter after it.
        std::size_t end = at + 2;
        while (continues_letter(end))
            ++end;
        stretches.emplace_back(at, end);
    }
    return stretches;
}

/// A text in its letters, on one line until it is told how wide it may be.
class Layout {
public:
    Layout(cairo_t* pen, const std::string& text, const Lettering& lettering)
        : pen_{pen}, layout_{pango_cairo_create_layout(pen)} {
        choose_plain_fonts(pango_layout_get_context(layout_.get()));
        PangoFontDescription* font = pango_font_description_new();
        pango_font_description_set_family_static(font, "DejaVu Sans");
        pango_font_description_set_weight(font,
                                          lettering.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_absolute_size(font, lettering.size_px * PANGO_SCALE);
        pango_layout_set_font_description(layout_.get(), font);
        pango_font_description_free(font);
        const std::string words = on_one_line(text);
        pango_layout_set_text(layout_.get(), words.c_str(), static_cast<int>(words.size()));
        // Sentences are ours, and run from left to right; names in them run as they must.
        pango_layout_set_auto_dir(layout_.get(), FALSE);
        choose_colour(pen, lettering.colour);
    }

    [[nodiscard]] double width_px() const {
        PangoRectangle whole;
        pango_layout_get_extents(layout_.get(), nullptr, &whole);
        return px(whole.width);
    }

    void cut_to(double most_px) {
        if (width_px() <= most_px)
            return;
        pango_layout_set_ellipsize(layout_.get(), PANGO_ELLIPSIZE_END);
        pango_layout_set_width(layout_.get(), units(most_px));
    }

    void break_at(double width_px) {
        pango_layout_set_wrap(layout_.get(), PANGO_WRAP_WORD_CHAR);
        pango_layout_set_width(layout_.get(), units(width_px));
        keep_whole(KeptWhole::numbers_too);
        // A word as wide as the line holds no number besides.
        if (breaks_a_word())
            keep_whole(KeptWhole::strokes);
    }

    [[nodiscard]] bool lacks_letters() const {
        return pango_layout_get_unknown_glyphs_count(layout_.get()) > 0;
    }

    [[nodiscard]] int lines() const { return pango_layout_get_line_count(layout_.get()); }

    void draw(double x, double baseline_y) const {
        cairo_move_to(pen_, x, baseline_y - px(pango_layout_get_baseline(layout_.get())));
        pango_cairo_show_layout(pen_, layout_.get());
        cairo_new_path(pen_);
    }

    /// Returns the baseline of the line after the last.
    double draw_lines(double x, double first_baseline_y, double line_px) const {
        double baseline_y = first_baseline_y;
        PangoLayoutIter* at = pango_layout_get_iter(layout_.get());
        do {
            PangoRectangle line;
            pango_layout_iter_get_line_extents(at, nullptr, &line);
            cairo_move_to(pen_, x + px(line.x), baseline_y);
            pango_cairo_show_layout_line(pen_, pango_layout_iter_get_line_readonly(at));
            baseline_y += line_px;
        } while (pango_layout_iter_next_line(at) != FALSE);
        pango_layout_iter_free(at);
        cairo_new_path(pen_);
        return baseline_y;
    }

private:
    [[nodiscard]] bool breaks_a_word() const {
        const std::string_view text = pango_layout_get_text(layout_.get());
        const auto is_in_word = [&](std::size_t at) { return text[at] != ' ' && text[at] != '-'; };
        for (int i = 1; i < lines(); ++i) {
            const auto at = static_cast<std::size_t>(
                pango_layout_get_line_readonly(layout_.get(), i)->start_index);
            if (at < text.size() && is_in_word(at - 1))
                return true;
        }
        return false;
    }

    void keep_whole(KeptWhole kept) {
        PangoAttrList* attributes = pango_attr_list_new();
        for (const auto& [from, to] : without_breaks(pango_layout_get_text(layout_.get()), kept)) {
            PangoAttribute* whole = pango_attr_allow_breaks_new(FALSE);
            whole->start_index = static_cast<guint>(from);
            whole->end_index = static_cast<guint>(to);
            pango_attr_list_insert(attributes, whole);
        }
        pango_layout_set_attributes(layout_.get(), attributes);
        pango_attr_list_unref(attributes);
    }

    static double px(int units) { return static_cast<double>(units) / PANGO_SCALE; }
    /// None at all would mean no limit.
    static int units(double px) { return std::max(1, static_cast<int>(px * PANGO_SCALE)); }

    cairo_t* pen_;
    std::unique_ptr<PangoLayout, Unref> layout_;
};

void trace(cairo_t* pen, const std::vector<Point2>& points) {
    cairo_new_sub_path(pen);
    for (const Point2& point : points)
        cairo_line_to(pen, point.x, point.y);
}

// RGB24 keeps a pixel as one number, red above green above blue, whatever the machine.
constexpr std::ptrdiff_t bytes_a_pixel = sizeof(std::uint32_t);

/// Reads the pixels of an image that has been drawn to its end.
Image<Rgb8> pixels_of(cairo_surface_t* image) {
    const int row_bytes = cairo_image_surface_get_stride(image);
    const unsigned char* bytes = cairo_image_surface_get_data(image);
    Image<Rgb8> picture(cairo_image_surface_get_width(image),
                        cairo_image_surface_get_height(image));
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x) {
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

/// A PDF takes this in place of the pixels, and is a tenth as large.
void attach_jpeg(cairo_surface_t* pixels, const Image<Rgb8>& image) {
    if (std::max(image.width_px(), image.height_px()) > longest_jpeg_side_px)
        return;
    auto jpeg = std::make_unique<Bytes>(jpeg_bytes(image, usual_jpeg_quality));
    const auto* bytes = reinterpret_cast<const unsigned char*>(jpeg->data());
    const auto status = cairo_surface_set_mime_data(
        pixels, CAIRO_MIME_TYPE_JPEG, bytes, jpeg->size(),
        [](void* kept) { delete static_cast<Bytes*>(kept); }, jpeg.get());
    if (status == CAIRO_STATUS_SUCCESS)
        (void)jpeg.release();
}

void stroke(cairo_t* pen, Rgb8 colour, double line_px) {
    choose_colour(pen, colour);
    cairo_set_line_width(pen, line_px);
    cairo_stroke(pen);
}

}  // namespace

bool Canvas::lacks_letters(const std::string& text) {
    const Surface any{1, 1};
    return Layout{any.pen, text, {}}.lacks_letters();
}

Canvas::Canvas(int width_px, int height_px, Rgb8 background)
    : surface_{std::make_unique<Surface>(width_px, height_px)} {
    cairo_t* pen = surface_->pen;
    choose_colour(pen, background);
    cairo_paint(pen);
    cairo_set_antialias(pen, CAIRO_ANTIALIAS_GRAY);
    cairo_set_line_cap(pen, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
}

Canvas::Canvas(Canvas&&) noexcept = default;
Canvas& Canvas::operator=(Canvas&&) noexcept = default;
Canvas::~Canvas() = default;

double Canvas::text_width_px(const std::string& text, const Lettering& lettering) {
    return Layout{surface_->pen, text, lettering}.width_px();
}

void Canvas::text(double x, double baseline_y, const std::string& text, const Lettering& lettering,
                  double most_px) {
    Layout layout{surface_->pen, text, lettering};
    layout.cut_to(most_px);
    layout.draw(x, baseline_y);
}

int Canvas::paragraph_lines(double width_px, const std::string& text, const Lettering& lettering) {
    if (text.empty())
        return 0;
    Layout layout{surface_->pen, text, lettering};
    layout.break_at(width_px);
    return layout.lines();
}

double Canvas::paragraph(double x, double first_baseline_y, double width_px, double line_px,
                         const std::string& text, const Lettering& lettering) {
    if (text.empty())
        return first_baseline_y;
    Layout layout{surface_->pen, text, lettering};
    layout.break_at(width_px);
    return layout.draw_lines(x, first_baseline_y, line_px);
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
    // A capital of DejaVu Sans is 0.729 of its size high.
    constexpr double capital = 0.729;
    cairo_t* pen = surface_->pen;
    cairo_save(pen);
    cairo_translate(pen, middle.x, middle.y);
    cairo_rotate(pen, -climb_rad);
    const Layout layout{pen, text, lettering};
    layout.draw(-layout.width_px() / 2, capital * lettering.size_px / 2);
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

void Canvas::picture(const Image<Rgb8>& image, double left, double top, double width_px,
                     double height_px) {
    if (image.empty())
        return;
    cairo_surface_t* pixels =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, image.width_px(), image.height_px());
    unsigned char* bytes = cairo_image_surface_get_data(pixels);
    const int row_bytes = cairo_image_surface_get_stride(pixels);
    for (int y = 0; y < image.height_px(); ++y)
        for (int x = 0; x < image.width_px(); ++x) {
            const Rgb8 pixel = image.at(x, y);
            const std::uint32_t packed =
                std::uint32_t{pixel.r} << 16 | std::uint32_t{pixel.g} << 8 | pixel.b;
            std::memcpy(bytes + static_cast<std::ptrdiff_t>(y) * row_bytes +
                            static_cast<std::ptrdiff_t>(x) * bytes_a_pixel,
                        &packed, sizeof packed);
        }
    cairo_surface_mark_dirty(pixels);
    attach_jpeg(pixels, image);
    cairo_t* pen = surface_->pen;
    cairo_save(pen);
    cairo_translate(pen, left, top);
    cairo_scale(pen, width_px / image.width_px(), height_px / image.height_px());
    cairo_set_source_surface(pen, pixels, 0, 0);
    cairo_paint(pen);
    cairo_restore(pen);
    cairo_surface_destroy(pixels);
}

void Canvas::clip_to(double left, double top, double width_px, double height_px) {
    cairo_save(surface_->pen);
    cairo_rectangle(surface_->pen, left, top, width_px, height_px);
    cairo_clip(surface_->pen);
}

void Canvas::clip_no_more() {
    cairo_restore(surface_->pen);
}

void Canvas::turn_about(const Point2& middle) {
    cairo_save(surface_->pen);
    cairo_translate(surface_->pen, middle.x, middle.y);
    cairo_rotate(surface_->pen, std::numbers::pi);
    cairo_translate(surface_->pen, -middle.x, -middle.y);
}

void Canvas::turn_no_more() {
    cairo_restore(surface_->pen);
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
    Image<Rgb8> picture = pixels_of(image);
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

Bytes Canvas::pdf_bytes(const std::string& title, double points_a_unit) const {
    Bytes bytes;
    cairo_surface_t* page = cairo_pdf_surface_create_for_stream(
        append, &bytes, points_a_unit * surface_->width_px, points_a_unit * surface_->height_px);
    cairo_pdf_surface_set_metadata(page, CAIRO_PDF_METADATA_TITLE, on_one_line(title).c_str());
    // Left alone, the library would note the time.
    cairo_pdf_surface_set_metadata(page, CAIRO_PDF_METADATA_CREATE_DATE, "");
    play(surface_->recording, page, points_a_unit);
    cairo_surface_finish(page);
    cairo_surface_destroy(page);
    return bytes;
}

}  // namespace backrow::report
