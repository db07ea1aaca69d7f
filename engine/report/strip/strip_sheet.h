#pragma once

// A strip as one sheet: frames side by side, a face of each close to, and words.

#include "report/strip/strip_layout.h"

#include "plan/faces/verdict.h"
#include "report/drawing/canvas.h"
#include "report/drawing/page_file.h"

#include "base/image.h"
#include "base/image_files.h"

#include <string>
#include <vector>

namespace backrow::report {

/// What stands over a column or beside a row.
struct StripHead {
    std::string title;
    std::string note;
};

struct StripPicture {
    Image<Rgb8> whole{};  ///< As large as its cell's box.
    Image<Rgb8> face{};   ///< Likewise.
    /// The part of whole that face shows, as shares of its width and height; may reach outside.
    double face_left = 0, face_top = 0, face_right = 0, face_bottom = 0;
    std::string setting{};  ///< "f/2.8, 9.4 m, 85 mm"
    plan::Verdict mark = plan::Verdict::crisp;
    std::string verdict{};    ///< "Priya soft, 3.6 arcmin": beside the mark.
    std::string note{};       ///< In small print …
    std::string complaint{};  ///< … and likewise, but not to be overlooked.
};

struct StripSheet {
    std::string title;
    std::string below_title;
    std::vector<StripHead> columns{};
    std::vector<StripHead> rows{};         ///< Shown where there is more than one.
    std::vector<StripPicture> pictures{};  ///< Row after row.
    std::vector<std::string> foot{};       ///< At most StripShape::foot_lines.
};

/// layout   strip_layout() for as many columns and rows
/// returns  a unit of it is a pixel of the layout; the same contents give the same sheet
[[nodiscard]] Canvas strip_sheet(const StripSheet& sheet, const StripLayout& layout);

/// The same as a file. On paper it is so large that its smallest letters are those of
/// least_text_pt; text is text there, and pictures have all their pixels.
///
/// kind  png or pdf
[[nodiscard]] Bytes strip_bytes(const StripSheet& sheet, const StripLayout& layout, PageKind kind);

}  // namespace backrow::report
