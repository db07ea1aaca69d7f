#pragma once

// --samples and --quality, for verbs that draw pictures.

#include "render/passes/sample_choice.h"

#include <CLI/CLI.hpp>

#include <string>

/// Declares them.
///
/// about_samples  what the help says of --samples: how many there are by default
void add_rendering(CLI::App& verb, int& samples, backrow::render::Quality& quality,
                   const std::string& about_samples);
