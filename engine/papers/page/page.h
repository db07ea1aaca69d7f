#pragma once

// A page of black on white that knows where everything on it lies.

#include "plan/faces/verdict.h"
#include "report/drawing/canvas.h"
#include "report/drawing/line_labels.h"
#include "report/drawing/page_file.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::papers {

inline constexpr Rgb8 black{0, 0, 0};
inline constexpr Rgb8 white{255, 255, 255};
inline constexpr Rgb8 grey{214, 214, 214};  ///< An area that black lines and letters lie on.

using report::least_text_pt;

/// Something on a page that must not lie on anything else.
struct Box {
    report::Frame place{};
    double text_pt = 0;  ///< 0: a picture or a drawing.
    std::string text{};
};

struct Letters {
    double size_pt = least_text_pt;
    bool bold = false;

    /// From one baseline to the next.
    [[nodiscard]] double line_pt() const { return 1.18 * size_pt; }
};

class Page {
public:
    Page(int width_pt, int height_pt) : canvas_{width_pt, height_pt, white} {}

    /// A text over lines no wider than this, below a height; returns how far down it reaches.
    double paragraph(double left, double top, double width_pt, const std::string& text,
                     const Letters& letters);
    /// One that has room on a line, ending at the right.
    void text_ending_at(double right, double top, const std::string& text, const Letters& letters);
    /// A label on a drawing with its middle there.
    void label(const Point2& middle, const std::string& text, const Letters& letters);
    /// How many lines a paragraph() of this width takes.
    [[nodiscard]] int lines(double width_pt, const std::string& text, const Letters& letters);
    [[nodiscard]] double text_width_pt(const std::string& text, const Letters& letters);

    /// The sign of a verdict, from its left top, times its own size.
    void sign(double left, double top, plan::Verdict verdict, double size);
    void picture(const Image<Rgb8>& image, const report::Frame& place);
    /// A drawing that fills this rectangle: whatever is drawn from here on and is no label.
    void drawing(const report::Frame& place);

    /// From now on everything stands on its head: turned by half a turn about this point, until
    /// turn_no_more().
    void turn_about(const Point2& middle);
    void turn_no_more();

    [[nodiscard]] report::Canvas& canvas() noexcept { return canvas_; }
    [[nodiscard]] const report::Canvas& canvas() const noexcept { return canvas_; }
    [[nodiscard]] const std::vector<Box>& boxes() const noexcept { return boxes_; }
    [[nodiscard]] const std::vector<Box>& labels() const noexcept { return labels_; }

private:
    [[nodiscard]] Box placed(Box box) const;

    report::Canvas canvas_;
    std::optional<Point2> turned_about_{};
    std::vector<Box> boxes_;   ///< None on another.
    std::vector<Box> labels_;  ///< None on another; on drawings.
};

}  // namespace backrow::papers
