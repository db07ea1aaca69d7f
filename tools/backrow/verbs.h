#pragma once

// One function a verb: declares it on the command line and, when it is chosen, runs it and leaves
// its exit code.

#include "exit_code.h"

#include <CLI/CLI.hpp>

void add_preview(CLI::App& program, ExitCode& result);
void add_faces(CLI::App& program, ExitCode& result);
void add_advise(CLI::App& program, ExitCode& result);
void add_odds(CLI::App& program, ExitCode& result);
void add_tradeoff(CLI::App& program, ExitCode& result);
void add_strip(CLI::App& program, ExitCode& result);
void add_card(CLI::App& program, ExitCode& result);
void add_client(CLI::App& program, ExitCode& result);
void add_lesson(CLI::App& program, ExitCode& result);
void add_rehearse(CLI::App& program, ExitCode& result);
void add_arrange(CLI::App& program, ExitCode& result);
void add_inspect(CLI::App& program, ExitCode& result);
void add_lens(CLI::App& program, ExitCode& result);
