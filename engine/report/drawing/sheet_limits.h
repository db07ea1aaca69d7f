#pragma once

// How large a sheet of pictures may become.

namespace backrow::report {

/// No side of a sheet is longer, and no sheet has more pixels.
inline constexpr int longest_sheet_side_px = 16000;
inline constexpr long most_sheet_pixels = 100'000'000;

}  // namespace backrow::report
