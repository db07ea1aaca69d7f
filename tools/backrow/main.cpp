#include "exit_code.h"
#include "verbs.h"

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <new>

namespace {

int code(ExitCode exit_code) { return static_cast<int>(exit_code); }

int run(int argc, char** argv) {
    CLI::App program{"Rehearse a group photograph before the shoot: who will be sharp, and why."};
    program.name("backrow");
    program.set_version_flag("--version", "backrow " BACKROW_VERSION);
    program.require_subcommand(1);
    program.get_formatter()->column_width(34);

    ExitCode result = ExitCode::done;
    add_preview(program, result);
    add_faces(program, result);

    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return program.exit(error) == 0 ? code(ExitCode::done) : code(ExitCode::wrong_command_line);
    }
    return code(result);
}

}  // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        fmt::print(stderr, "backrow: this machine has too little memory for that; try a smaller "
                           "--width or fewer people\n");
    } catch (const std::exception& error) {
        fmt::print(stderr, "backrow: {}\n", error.what());
    }
    return code(ExitCode::machine_cannot);
}
