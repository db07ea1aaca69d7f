#pragma once

// The chart of distance and aperture on one page, A4 across: the answers in sentences, the plot,
// what its lines mean, and how to read it.

#include "report/drawing/canvas.h"
#include "report/drawing/page_file.h"
#include "report/tradeoff/tradeoff_words.h"

#include "base/image_files.h"

namespace backrow::report {

/// The page; 72 of its pixels are an inch.
[[nodiscard]] Canvas tradeoff_chart(const TradeoffReport& report);

/// The page as a file; PNG with two pixels for each of the page.
[[nodiscard]] Bytes tradeoff_chart_bytes(const TradeoffReport& report, PageKind kind);

}  // namespace backrow::report
