#include "base/process.h"

#include <fmt/format.h>

#include <unistd.h>

#include <fstream>
#include <iterator>
#include <optional>
#include <sstream>
#include <string>

namespace backrow {
namespace {

/// When this number's process was started; nothing where there is none or it has ended and is only
/// waited for.
std::optional<long long> start_of(long number) {
    std::ifstream file{fmt::format("/proc/{}/stat", number)};
    const std::string line{std::istreambuf_iterator<char>{file}, {}};
    // The name in brackets may hold anything, so fields are counted after the last bracket: the
    // state, 18 others, the start; proc(5).
    const auto bracket = line.rfind(')');
    if (bracket == line.npos)
        return std::nullopt;
    std::istringstream fields{line.substr(bracket + 1)};
    char state = 0;
    fields >> state;
    constexpr int between = 18;
    std::string passed;
    for (int i = 0; i < between; ++i)
        fields >> passed;
    long long started = 0;
    if (!(fields >> started) || state == 'Z' || state == 'X')
        return std::nullopt;
    return started;
}

}  // namespace

Process this_process() {
    const long number = ::getpid();
    return {.number = number, .started = start_of(number).value_or(0)};
}

bool still_runs(const Process& process) {
    return process.number > 0 && start_of(process.number) == process.started;
}

}  // namespace backrow
