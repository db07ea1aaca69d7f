#pragma once

// A page as the bytes of a file.

#include "report/drawing/canvas.h"

#include "base/image_files.h"

#include <string>

namespace backrow::report {

/// On paper nothing is lettered smaller.
inline constexpr double least_text_pt = 7;

enum class PageKind { png, svg, pdf };

/// By the ending of its path; PNG where it is neither of the others.
[[nodiscard]] PageKind page_kind_of(const std::string& path);

/// pixels_a_point  of a PNG
/// title           of a PDF
[[nodiscard]] Bytes page_bytes(const Canvas& page, PageKind kind, int pixels_a_point,
                               const std::string& title);

}  // namespace backrow::report
