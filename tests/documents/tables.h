#pragma once

// Tables of a document in Markdown, line by line.

#include <regex>
#include <string>
#include <vector>

namespace backrow::documents {

/// The cells of a line of a table, without the spaces round them. A stroke in a cell is written \|.
[[nodiscard]] std::vector<std::string> cells_of(const std::string& row);

/// What the first group of the pattern holds, wherever it matches.
[[nodiscard]] std::vector<std::string> matches(const std::string& text, const std::regex& pattern);

/// A text without the spaces round it.
[[nodiscard]] std::string trimmed(const std::string& text);

}  // namespace backrow::documents
