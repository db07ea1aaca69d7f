#pragma once

// --language, for verbs that make papers.

#include <CLI/CLI.hpp>

#include <string>

/// Declares it. language is the locale's until another is chosen.
void add_language(CLI::App& verb, std::string& language);
