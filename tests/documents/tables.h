#pragma once

// Tables of a document in Markdown, line by line.

#include "structure/source_files.h"

#include <string>
#include <vector>

namespace backrow::documents {

/// The cells of a line of a table, without the spaces round them. A stroke in a cell is written \|.
[[nodiscard]] std::vector<std::string> cells_of(const std::string& row);

using structure::matches;

/// A text without the spaces round it.
[[nodiscard]] std::string trimmed(const std::string& text);

}  // namespace backrow::documents
