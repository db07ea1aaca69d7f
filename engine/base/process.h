#pragma once

// Runs of programs: this one, and whether another still goes on.

namespace backrow {

/// One run of a program. The number is given to another once it has ended; the time is not.
struct Process {
    long number = 0;
    long long started = 0;  ///< Clock ticks since the machine was started.

    bool operator==(const Process&) const = default;
};

[[nodiscard]] Process this_process();

[[nodiscard]] bool still_runs(const Process& process);

}  // namespace backrow
