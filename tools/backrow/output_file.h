#pragma once

// Files named on the command line to be written: checked before the work.

#include "exit_code.h"

#include <CLI/CLI.hpp>

#include <string>
#include <string_view>
#include <vector>

/// An option with its file; empty where it was not given.
struct OutputFile {
    const char* option;
    const std::string& path;
    std::vector<std::string_view> endings;  ///< Lower case with the dot; none: any will do.
};

/// Declares it. An empty word, as an unset variable of a script leaves, is refused.
CLI::Option* add_output_file(CLI::App& verb, const char* option, std::string& path,
                             const char* description, const char* type);

/// Endings, one file named twice, a file that was read, folders that refuse. Says what is wrong. To
/// be asked as soon as the scene is read, before long work.
[[nodiscard]] ExitCode check(const std::vector<OutputFile>& outputs);

/// A file that was read (base/files_read.h) alone: to be asked again where more has been read.
[[nodiscard]] ExitCode check_unread(const std::vector<OutputFile>& outputs);
