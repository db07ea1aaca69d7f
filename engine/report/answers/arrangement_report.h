#pragma once

// What `arrange` decided, as text to read, JSON and CSV to work on.

#include "arranging/arrange.h"

#include <string>

namespace backrow::report {

struct ArrangementReport {
    arranging::Arrangement arrangement;
    std::string file;  ///< Where the scene was written.
};

/// What was chosen and why, a line each; then what to mind. Ends with a line break.
[[nodiscard]] std::string arrangement_text(const ArrangementReport& report);

/// One JSON object: the file, the choices, the cautions, and the rows with their people. Ends with
/// a line break.
[[nodiscard]] std::string arrangement_json(const ArrangementReport& report);

/// A heading and one record a person, rows from front to back.
[[nodiscard]] std::string arrangement_csv(const ArrangementReport& report);

}  // namespace backrow::report
