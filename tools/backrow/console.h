#pragma once

// What a person at the terminal sees: problems, progress, and Ctrl-C.

#include "exit_code.h"

#include "delivery/step.h"
#include "render/driver/progress.h"

#include "base/problem.h"
#include "base/whole_files.h"

#include <chrono>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace console {

/// To be called first: makes broken pipes, full disks and closed streams errors like any other,
/// which are told, instead of an end without a word.
void prepare();

/// A line on stderr, which may be closed: then there is nobody to tell.
void say(std::string_view line);

/// Each problem on a line of stderr, then the code for wrong input.
[[nodiscard]] ExitCode refuse(const std::vector<backrow::Problem>& problems);
/// The failure on a line of stderr, then the code for a machine that cannot.
[[nodiscard]] ExitCode refuse(const backrow::MachineFailure& failure);
/// Either, for a machine that cannot and for somebody who has interrupted.
[[nodiscard]] ExitCode refuse(const backrow::render::Unfinished& why);
/// A wrong command line, said on stderr.
[[nodiscard]] ExitCode refuse_command(std::string_view what);

/// Writes to stdout and makes sure that it arrived.
[[nodiscard]] ExitCode print(std::string_view text);

/// What lies aside appears, the last thing that a verb does; says why where it cannot.
[[nodiscard]] ExitCode keep(backrow::PendingFiles& files);

/// The end of a verb that writes one file, unless somebody has interrupted: the answer is printed
/// while the file still lies aside, so that an error in either leaves none.
///
/// path    empty: no file
/// answer  for stdout; empty: nothing to say
[[nodiscard]] ExitCode deliver(const std::string& path, std::span<const std::byte> bytes,
                               std::string_view answer = {});
[[nodiscard]] ExitCode deliver(const std::string& path, std::string_view text,
                               std::string_view answer = {});

/// From now on Ctrl-C, a polite kill and a closed terminal only raise a flag, for long work to stop
/// cleanly; a second one ends the program at once. What the caller had ignored stays ignored.
void listen_for_interrupts();
/// From now on a second one waits as well: files lie aside that must be put in place or removed.
void clean_up_when_interrupted() noexcept;
[[nodiscard]] bool interrupted() noexcept;
/// Says on stderr that nothing was written.
[[nodiscard]] ExitCode say_interrupted();

/// A line on stderr with share done and time left; silent where stderr is no terminal.
class ProgressLine {
public:
    explicit ProgressLine(std::string what);
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;
    ~ProgressLine();  ///< Wipes the line.
    void show(double done);
    /// Shows it, and says whether to go on: false once interrupted().
    [[nodiscard]] bool go_on(double done);

private:
    std::string what_;
    bool is_terminal_;
    std::chrono::steady_clock::time_point start_;
    std::chrono::steady_clock::time_point last_shown_;
};

/// A line for each step of the making of pictures, one after another.
class StepLines {
public:
    /// For whoever makes them; valid as long as this lives where it is.
    [[nodiscard]] backrow::delivery::StepProgress follow();
    void wipe() { line_.reset(); }

private:
    backrow::delivery::Step step_{};
    std::optional<ProgressLine> line_;
};

}  // namespace console
