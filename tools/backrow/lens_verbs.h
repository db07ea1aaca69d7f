#pragma once

// The verbs below `lens`; each sets result when it is called.

#include "exit_code.h"

#include <CLI/CLI.hpp>

void add_lens_measure(CLI::App& lens, ExitCode& result);
void add_lens_chart(CLI::App& lens, ExitCode& result);
