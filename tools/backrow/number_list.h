#pragma once

// An option that takes several numbers with commas between.

#include "scene/limits.h"
#include <CLI/CLI.hpp>

#include <vector>

/// Declares it. Each number must lie within the range of the key; an empty place between two commas
/// is an error like any other word that is no number.
///
/// unit  as the help names each number
void add_numbers(CLI::App& verb, const char* option, std::vector<double>& into,
                 backrow::scene::Range<double> range, const char* unit, const char* description);
