#pragma once

// A catalogue of translated sentences, as gettext's msgfmt compiles it (an .mo file). Read here and
// not by gettext's own functions: those take the language from the process, one for all threads,
// and give nothing where the system has no locale of that name.

#include "base/problem.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::papers {

/// From each sentence of the source to its translation.
using Catalogue = std::map<std::string, std::string, std::less<>>;

/// The names between braces: "how {far} is {who}" has "far" and "who"; in order, each once.
[[nodiscard]] std::vector<std::string> placeholders(std::string_view sentence);

/// Sentences whose placeholders are not those of their translation are left out, so that every
/// sentence can be filled.
///
/// bytes  of the file, hostile or not
/// name   of the file, for what is wrong with it
[[nodiscard]] Made<Catalogue> read_catalogue(std::string_view bytes, const std::string& name);

}  // namespace backrow::papers
