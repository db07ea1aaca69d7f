#pragma once

// Something to letter and draw on, that becomes pixels or a page of vectors. Text is shaped by
// Pango, in any script and direction: DejaVu Sans without hinting, so that the same call gives the
// same pixels on every machine that has the font; letters that it lacks come from another font of
// the system.

#include "base/image.h"
#include "base/image_files.h"
#include "base/sequences.h"

#include <memory>
#include <string>
#include <vector>

namespace backrow::report {

struct Lettering {
    double size_px = 13;
    bool bold = false;
    Rgb8 colour{230, 230, 230};
};

struct Stroke {
    Rgb8 colour{};
    double width_px = 1;
    std::vector<double> dashes_px{};  ///< Drawn, left out, drawn, …; none: a whole line.
};

/// Coordinates are pixels from the top-left corner, y down; shapes are smoothed at their edges. On
/// a page of vectors such a pixel is a point, 1/72 inch.
class Canvas {
public:
    Canvas(int width_px, int height_px, Rgb8 background);
    Canvas(Canvas&&) noexcept;
    Canvas& operator=(Canvas&&) noexcept;
    ~Canvas();

    /// Whether no font of this machine has some letter of the text: a box would stand for it.
    [[nodiscard]] static bool lacks_letters(const std::string& text);

    /// How far the text would reach.
    [[nodiscard]] double text_width_px(const std::string& text, const Lettering& lettering);

    /// Letters the text from x on, on a baseline; cut short with "…" where it is wider than
    /// most_px. The text is UTF-8; control characters become spaces.
    void text(double x, double baseline_y, const std::string& text, const Lettering& lettering,
              double most_px);

    /// How many lines a paragraph() of this width would take; 0 for no text.
    [[nodiscard]] int paragraph_lines(double width_px, const std::string& text,
                                      const Lettering& lettering);

    /// Letters a text over lines no wider than width_px, broken between words, or within one that
    /// is wider, but not at a stroke ("f/2.8") nor, where a line holds both, before a number
    /// that stands alone ("Bo 2").
    /// first_baseline_y is that of the first line, line_px from one baseline to the next.
    ///
    /// returns  the baseline of the line after the last
    double paragraph(double x, double first_baseline_y, double width_px, double line_px,
                     const std::string& text, const Lettering& lettering);

    void disc(double x, double y, double radius, Rgb8 colour);
    void line(double from_x, double from_y, double to_x, double to_y, Rgb8 colour, double line_px);

    /// Letters the text with its middle at a point, climbing by this angle to the right.
    void text_along(const Point2& middle, double climb_rad, const std::string& text,
                    const Lettering& lettering);
    void polyline(const std::vector<Point2>& points, bool closed, const Stroke& stroke);
    /// Fills what an odd number of the closed outlines lies round.
    void fill(const std::vector<std::vector<Point2>>& outlines, Rgb8 colour);

    /// A picture, as large as this; in a PDF as a JPEG of usual quality.
    void picture(const Image<Rgb8>& image, double left, double top, double width_px,
                 double height_px);

    /// From now on nothing is drawn outside this rectangle, until clip_no_more().
    void clip_to(double left, double top, double width_px, double height_px);
    void clip_no_more();

    /// From now on everything is drawn turned by half a turn about this point, until
    /// turn_no_more().
    void turn_about(const Point2& middle);
    void turn_no_more();

    /// Copies the canvas into a picture, its corner at (left, top); it must lie inside.
    void copy_into(Image<Rgb8>& picture, int left, int top) const;

    /// The canvas with this many pixels to each of its own.
    [[nodiscard]] Image<Rgb8> pixels(int scale) const;
    /// One page with its fonts inside; the same canvas gives the same bytes, for no time is noted.
    [[nodiscard]] Bytes svg_bytes() const;
    ///
    /// points_a_unit  how large on paper a unit of the canvas is, points
    [[nodiscard]] Bytes pdf_bytes(const std::string& title, double points_a_unit = 1) const;

private:
    struct Surface;
    std::unique_ptr<Surface> surface_;
};

}  // namespace backrow::report
