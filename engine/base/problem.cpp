#include "base/problem.h"

#include <fmt/format.h>

namespace backrow {
namespace {

// A message is one line whatever the user's file contained.
std::string on_one_line(std::string text) {
    for (char& c : text)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
            c = ' ';
    return text;
}

std::string joined(const std::string& what, const std::string& mend) {
    return mend.empty() ? what : fmt::format("{}; {}", what, mend);
}

}  // namespace

std::string to_line(const Problem& problem) {
    const Place& at = problem.where;
    const std::string said = joined(problem.what, problem.mend);
    if (at.file.empty())
        return on_one_line(said);
    if (at.line == 0)
        return on_one_line(fmt::format("{}: {}", at.file, said));
    return on_one_line(fmt::format("{}:{}:{}: {}", at.file, at.line, at.column, said));
}

std::string to_line(const MachineFailure& failure) {
    return on_one_line(joined(failure.what, failure.mend));
}

MachineFailure too_little_memory() {
    return {"this machine has too little memory for that", "try a smaller picture or fewer people"};
}

}  // namespace backrow
