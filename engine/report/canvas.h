#pragma once

// A piece of picture to letter and draw on. Text is DejaVu Sans without hinting, so that the same
// call gives the same pixels on every machine that has the font.

#include "base/image.h"

#include <memory>
#include <string>

namespace backrow::report {

struct Lettering {
    double size_px = 13;
    bool bold = false;
    Rgb8 colour{230, 230, 230};
};

/// Coordinates are pixels from the top-left corner, y down; shapes are smoothed at their edges.
class Canvas {
public:
    Canvas(int width_px, int height_px, Rgb8 background);
    Canvas(Canvas&&) noexcept;
    Canvas& operator=(Canvas&&) noexcept;
    ~Canvas();

    /// How far the text would reach.
    [[nodiscard]] double text_width_px(const std::string& text, const Lettering& lettering);

    /// Letters the text from x on, on a baseline; cut short with "…" where it is wider than
    /// most_px. The text is UTF-8; control characters become spaces.
    void text(double x, double baseline_y, const std::string& text, const Lettering& lettering,
              double most_px);

    /// An almond between two corners on one level, bulging by rise above and fall below; filled, or
    /// as a line of the given width.
    void almond(double left, double right, double y, double rise, double fall, Rgb8 colour,
                double line_px);
    /// One lid of the almond: from corner to corner, bulging down by fall.
    void lid(double left, double right, double y, double fall, Rgb8 colour, double line_px);
    void disc(double x, double y, double radius, Rgb8 colour);
    void line(double from_x, double from_y, double to_x, double to_y, Rgb8 colour, double line_px);

    /// Copies the canvas into a picture, its corner at (left, top); it must lie inside.
    void copy_into(Image<Rgb8>& picture, int left, int top) const;

private:
    struct Surface;
    std::unique_ptr<Surface> surface_;
};

}  // namespace backrow::report
