#pragma once

// The errors of a lens that were fitted, and how far they are told.

#include "report/text/json.h"

#include "optics/fitting/profile_fit.h"

#include <string>
#include <vector>

namespace backrow::report {

/// What stands behind "±" for people to read, in standard errors: nineteen of twenty lie within.
inline constexpr double told_errors = 2;

/// What a term is called, and where it is so large.
struct TermWords {
    const char* name;
    const char* where;
};
[[nodiscard]] TermWords words_of(const optics::FittedTerm& term);

/// "spherical aberration +0.0281 ± 0.0010, field curvature not told".
[[nodiscard]] std::string terms_in_words(const std::vector<optics::FittedTerm>& terms);

[[nodiscard]] Json terms_json(const std::vector<optics::FittedTerm>& terms);

}  // namespace backrow::report
