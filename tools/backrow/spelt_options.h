#pragma once

// Options whose numbers may be written as photographers do: 30 ft, f/2.8, 182 cm.

#include "scene/limits.h"

#include "base/spelt_number.h"

#include <CLI/CLI.hpp>

#include <vector>

/// For an option of one number, or of several that the parser itself takes apart: what is spelt so
/// becomes a plain number before any other check sees it.
[[nodiscard]] CLI::Validator as_spelt(backrow::Measure measure);

/// Declares an option of several numbers with commas between. Each must lie within the range of the
/// key; an empty place between two commas is an error like any other word that is no number.
///
/// unit  as the help names each number
void add_numbers(CLI::App& verb, const char* option, std::vector<double>& into,
                 backrow::scene::Range<double> range, backrow::Measure measure, const char* unit,
                 const char* description);
