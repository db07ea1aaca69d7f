#pragma once

// The project's own files as text, for tests that read them.

#include <regex>
#include <string>
#include <vector>

namespace backrow::structure {

struct SourceFile {
    std::string path;  ///< From the top of the project, with /.
    std::string text;
};

/// Every file below a folder of the project, in the order of their paths; none where there is no
/// such folder.
[[nodiscard]] std::vector<SourceFile> files_under(const std::string& folder);

/// Every document (*.md) of the project.
[[nodiscard]] std::vector<SourceFile> documents();

/// A file's text, empty where it cannot be read.
[[nodiscard]] std::string text_of(const std::string& path);

/// "optics" of "engine/optics/lens/lens.h" and of "tests/optics/lens_test.cpp".
[[nodiscard]] std::string layer_of(const std::string& path);

/// What the first group of the pattern holds, wherever it matches.
[[nodiscard]] std::vector<std::string> matches(const std::string& text, const std::regex& pattern);

}  // namespace backrow::structure
