#pragma once

// What can go wrong, told so that a photographer can mend it.
//
// Four kinds, never mixed: the user's input is a list of Problem (Checked<T>); the machine is a
// MachineFailure; "no answer exists" is a value in the result type; our own bugs are assertions.

#include <tl/expected.hpp>

#include <string>
#include <vector>

namespace backrow {

/// A place in a text file, 1-based as editors count; line 0 means the file as a whole.
struct Place {
    std::string file;
    int line = 0;
    int column = 0;

    bool operator==(const Place&) const = default;
};

/// One thing wrong with what the user gave us, and how to mend it.
struct Problem {
    Place where;
    std::string what;
    std::string mend;
};

/// A value, or everything found wrong with it: readers report all problems, not the first.
template <class T>
using Checked = tl::expected<T, std::vector<Problem>>;

/// The machine cannot do it: no OpenGL, a full disk, a folder that may not be written.
struct MachineFailure {
    std::string what;
    std::string mend;
};

/// What std::bad_alloc means, of main memory and of a graphics card's alike.
[[nodiscard]] MachineFailure too_little_memory();

/// A value, or why this machine cannot make it.
template <class T>
using Made = tl::expected<T, MachineFailure>;

/// "choir.toml:12:1: unknown key `stature_cm`; did you mean `stature_m`?" on one line.
[[nodiscard]] std::string to_line(const Problem& problem);

/// "cannot open a folder; choose another with -o" on one line.
[[nodiscard]] std::string to_line(const MachineFailure& failure);

}  // namespace backrow
