#pragma once

// What the program tells the shell.

enum class ExitCode : int {
    done = 0,
    wrong_input = 1,  ///< The scene or another file is wrong; the message says where.
    wrong_command_line = 2,
    machine_cannot = 3,  ///< No OpenGL, disk full.
    not_possible = 4,    ///< Done, but the answer is "not possible".
    interrupted = 130,
};
