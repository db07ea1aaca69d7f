#include "output_file.h"

#include "console.h"

#include "base/file_endings.h"
#include "base/files_read.h"
#include "base/whole_files.h"
#include "base/whole_path.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace {

namespace fs = std::filesystem;

bool is_device(const fs::path& path) {
    std::error_code none;
    return fs::is_character_file(path, none);
}

// "/dev/stdout", or the file that the shell sends the table to.
bool is_stdout(const std::string& path) {
    struct stat there {};
    struct stat here {};
    return ::stat(path.c_str(), &there) == 0 && ::fstat(STDOUT_FILENO, &here) == 0 &&
           there.st_dev == here.st_dev && there.st_ino == here.st_ino;
}

std::string names_a_file(const std::string& path) {
    return path.empty() ? "needs the name of a file" : std::string{};
}

}  // namespace

CLI::Option* add_output_file(CLI::App& verb, const char* option, std::string& path,
                             const char* description, const char* type) {
    return verb.add_option(option, path, description)->type_name(type)->check(names_a_file);
}

ExitCode check(const std::vector<OutputFile>& outputs) {
    std::vector<std::string> taken;
    for (const auto& [option, path, endings] : outputs) {
        if (path.empty() || is_device(path))
            continue;
        if (!endings.empty() &&
            std::none_of(endings.begin(), endings.end(), [&path = path](std::string_view ending) {
                return backrow::ends_in(path, ending);
            }))
            return console::refuse_command(
                fmt::format("{} {} must end in {}", option, path, fmt::join(endings, " or ")));
        if (is_stdout(path))
            return console::refuse_command(
                fmt::format("{} {} is where the table goes; choose another name", option, path));
        const std::string place = backrow::whole_path(path);
        if (std::find(taken.begin(), taken.end(), place) != taken.end())
            return console::refuse_command(
                fmt::format("{} {} is another output as well; choose another name", option, path));
        taken.push_back(place);
    }
    if (const ExitCode code = check_unread(outputs); code != ExitCode::done)
        return code;
    for (const OutputFile& output : outputs)
        if (!output.path.empty())
            if (const auto writable = backrow::check_writable(output.path); !writable)
                return console::refuse(writable.error());
    return ExitCode::done;
}

ExitCode check_unread(const std::vector<OutputFile>& outputs) {
    for (const OutputFile& output : outputs)
        if (!output.path.empty() && !is_device(output.path) && backrow::was_read(output.path))
            return console::refuse_command(
                fmt::format("{} {} is the scene or something in it; choose another name",
                            output.option, output.path));
    return ExitCode::done;
}
