#pragma once

// In which language a paper speaks.

#include <CLI/CLI.hpp>

#include <string>

/// Declares --language, and sets it to that of the locale.
void add_language(CLI::App& verb, std::string& language);
