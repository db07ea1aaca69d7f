#pragma once

// Rows and columns as aligned text for a terminal.

#include <string>
#include <vector>

namespace backrow::report {

enum class Align { left, right };

struct Column {
    std::string heading;
    Align align = Align::right;
};

/// Terminals and pages of text are about so wide; longer lines are broken where nobody reads on.
inline constexpr int table_width = 100;

/// The heading, a rule and a line for each row, columns two spaces apart and as wide as they must
/// be; no spaces at the ends of lines. Each row has one cell for each column.
///
/// Where that is wider than table_width, headings of two words stand in two lines; where it still
/// is, and the last column is text, that is broken between words, its further lines below.
[[nodiscard]] std::string text_table(const std::vector<Column>& columns,
                                     const std::vector<std::vector<std::string>>& rows);

}  // namespace backrow::report
