#include "console.h"

#include <fmt/format.h>

#include <unistd.h>

#include <atomic>
#include <cmath>
#include <csignal>
#include <cstdio>

namespace console {
namespace {

volatile std::sig_atomic_t interrupt_seen = 0;

extern "C" void note_interrupt(int /*signal*/) { interrupt_seen = 1; }

std::string spoken_seconds(double seconds) {
    const auto whole = static_cast<long>(std::ceil(seconds));
    return whole < 60 ? fmt::format("{} s", whole)
                      : fmt::format("{} min {:02} s", whole / 60, whole % 60);
}

}  // namespace

ExitCode refuse(const std::vector<backrow::Problem>& problems) {
    for (const backrow::Problem& problem : problems)
        fmt::print(stderr, "{}\n", to_line(problem));
    return ExitCode::wrong_input;
}

ExitCode refuse(const backrow::MachineFailure& failure) {
    fmt::print(stderr, "backrow: {}\n", to_line(failure));
    return ExitCode::machine_cannot;
}

ExitCode refuse_command(std::string_view what) {
    fmt::print(stderr, "backrow: {}\n", what);
    return ExitCode::wrong_command_line;
}

ExitCode print(std::string_view text) {
    const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
    if (written && std::fflush(stdout) == 0)
        return ExitCode::done;
    return refuse(backrow::MachineFailure{"cannot write the table to standard output", {}});
}

void listen_for_interrupts() {
    std::signal(SIGINT, note_interrupt);
    std::signal(SIGTERM, note_interrupt);
}

bool interrupted() noexcept { return interrupt_seen != 0; }

ProgressLine::ProgressLine(std::string what)
    : what_{std::move(what)}, is_terminal_{::isatty(STDERR_FILENO) == 1},
      start_{std::chrono::steady_clock::now()}, last_shown_{} {}

ProgressLine::~ProgressLine() {
    if (is_terminal_ && last_shown_ != std::chrono::steady_clock::time_point{})
        fmt::print(stderr, "\r\x1b[K");
}

void ProgressLine::show(double done) {
    const auto now = std::chrono::steady_clock::now();
    if (!is_terminal_ || done <= 0.0 || now - last_shown_ < std::chrono::milliseconds{100})
        return;
    last_shown_ = now;
    const double spent_s = std::chrono::duration<double>(now - start_).count();
    fmt::print(stderr, "\r\x1b[K{} {:3.0f} %, {} left", what_, done * 100.0,
               spoken_seconds(spent_s * (1.0 - done) / done));
}

}  // namespace console
