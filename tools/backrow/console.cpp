#include "console.h"

#include <fmt/format.h>

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <cstring>

namespace console {
namespace {

volatile std::sig_atomic_t interrupt_seen = 0;
volatile std::sig_atomic_t must_clean_up = 0;

extern "C" void note_interrupt(int /*signal*/) {
    if (interrupt_seen != 0 && must_clean_up == 0)
        ::_exit(static_cast<int>(ExitCode::interrupted));
    interrupt_seen = 1;
}

void write_to_stderr(const std::string& text) {
    std::fputs(text.c_str(), stderr);
}

std::string spoken_seconds(double seconds) {
    const auto whole = static_cast<long>(std::ceil(seconds));
    return whole < 60 ? fmt::format("{} s", whole)
                      : fmt::format("{} min {:02} s", whole / 60, whole % 60);
}

}  // namespace

void prepare() {
    // A stream that the caller closed would lend its number to the first file opened, and the table
    // would end up in a picture. This file takes no writing, so a closed stdout still is an error.
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        if (::fcntl(stream, F_GETFD) == -1)
            ::open("/dev/null", O_RDONLY);
    std::signal(SIGPIPE, SIG_IGN);
    std::signal(SIGXFSZ, SIG_IGN);
}

void say(std::string_view line) {
    write_to_stderr(fmt::format("{}\n", line));
}

ExitCode refuse(const std::vector<backrow::Problem>& problems) {
    for (const backrow::Problem& problem : problems)
        say(to_line(problem));
    return ExitCode::wrong_input;
}

ExitCode refuse(const backrow::MachineFailure& failure) {
    say(fmt::format("backrow: {}", to_line(failure)));
    return ExitCode::machine_cannot;
}

ExitCode refuse(const backrow::render::Unfinished& why) {
    const auto* failure = std::get_if<backrow::MachineFailure>(&why);
    return failure != nullptr ? refuse(*failure) : say_interrupted();
}

ExitCode refuse_command(std::string_view what) {
    say(fmt::format("backrow: {}", what));
    return ExitCode::wrong_command_line;
}

ExitCode print(std::string_view text) {
    const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
    if (written && std::fflush(stdout) == 0)
        return ExitCode::done;
    return refuse(backrow::MachineFailure{
        fmt::format("cannot write to standard output: {}", std::strerror(errno)), {}});
}

ExitCode keep(backrow::PendingFiles& files) {
    const auto kept = files.keep();
    return kept ? ExitCode::done : refuse(kept.error());
}

ExitCode deliver(const std::string& path, std::span<const std::byte> bytes,
                 std::string_view answer) {
    if (interrupted())
        return say_interrupted();
    clean_up_when_interrupted();
    backrow::PendingFiles files;
    if (!path.empty())
        if (const auto aside = files.add(path, bytes); !aside)
            return refuse(aside.error());
    if (!answer.empty())
        if (const ExitCode printed = print(answer); printed != ExitCode::done)
            return printed;
    return keep(files);
}

ExitCode deliver(const std::string& path, std::string_view text, std::string_view answer) {
    return deliver(path, std::as_bytes(std::span{text}), answer);
}

void listen_for_interrupts() {
    for (const int signal : {SIGINT, SIGTERM, SIGHUP})
        if (std::signal(signal, note_interrupt) == SIG_IGN)
            std::signal(signal, SIG_IGN);
}

void clean_up_when_interrupted() noexcept {
    must_clean_up = 1;
}

bool interrupted() noexcept {
    return interrupt_seen != 0;
}

ExitCode say_interrupted() {
    say("backrow: interrupted; nothing was written");
    return ExitCode::interrupted;
}

ProgressLine::ProgressLine(std::string what)
    : what_{std::move(what)}, is_terminal_{::isatty(STDERR_FILENO) == 1},
      start_{std::chrono::steady_clock::now()}, last_shown_{} {}

ProgressLine::~ProgressLine() {
    if (is_terminal_ && last_shown_ != std::chrono::steady_clock::time_point{})
        write_to_stderr("\r\x1b[K");
}

void ProgressLine::show(double done) {
    const auto now = std::chrono::steady_clock::now();
    if (!is_terminal_ || done <= 0.0 || now - last_shown_ < std::chrono::milliseconds{100})
        return;
    last_shown_ = now;
    const double spent_s = std::chrono::duration<double>(now - start_).count();
    write_to_stderr(fmt::format("\r\x1b[K{} {:3.0f} %, {} left", what_, done * 100.0,
                                spoken_seconds(spent_s * (1.0 - done) / done)));
}

bool ProgressLine::go_on(double done) {
    show(done);
    return !interrupted();
}

backrow::delivery::StepProgress StepLines::follow() {
    return [this](backrow::delivery::Step step, double done) {
        if (!line_ || step != step_) {
            line_.reset();
            line_.emplace(fmt::format("{}:", to_words(step)));
            step_ = step;
        }
        return line_->go_on(done);
    };
}

}  // namespace console
