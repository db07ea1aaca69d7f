#include "commands.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <sstream>

namespace backrow::documents {
namespace {

const std::string left_out = "…";
const std::string prompt = "$ ";
const std::string document_follows = "<< END";
const std::string document_ends = "END";

using Lines = std::vector<std::string>;

Lines lines_of(const std::string& text) {
    Lines lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

void drop_blank_end(Lines& lines) {
    while (!lines.empty() && lines.back().empty())
        lines.pop_back();
}

/// Whether more lines belong to the command that ends with this line.
bool goes_on(const std::string& command, const std::string& line) {
    if (command.find(document_follows) != std::string::npos)
        return line != document_ends;
    return line.ends_with('\\');
}

/// Stretches of lines between those left out; the first begins the answer, the last ends it, so
/// either may be empty.
std::vector<Lines> stretches_of(const Lines& shown) {
    std::vector<Lines> stretches(1);
    for (const std::string& line : shown)
        if (line == left_out)
            stretches.emplace_back();
        else
            stretches.back().push_back(line);
    return stretches;
}

std::string as_text(const Lines& lines) {
    std::string text;
    for (const std::string& line : lines)
        text += line + '\n';
    return text;
}

}  // namespace

std::vector<Command> commands_in(const std::string& markdown) {
    std::vector<Command> commands;
    bool in_block = false, in_command = false, in_answer = false;
    int number = 0;
    for (const std::string& line : lines_of(markdown)) {
        ++number;
        if (in_command) {
            commands.back().text += '\n' + line;
            in_command = goes_on(commands.back().text, line);
        } else if (line.starts_with("```")) {
            in_block = !in_block;
            in_answer = false;
        } else if (in_block && line.starts_with(prompt)) {
            commands.push_back({.line = number, .text = line.substr(prompt.size())});
            in_command = goes_on(commands.back().text, line);
            in_answer = true;
        } else if (in_answer) {
            commands.back().shown.push_back(line);
        }
    }
    for (Command& command : commands)
        drop_blank_end(command.shown);
    return commands;
}

std::string departure(const Lines& shown, const std::string& answer) {
    Lines lines = lines_of(answer);
    drop_blank_end(lines);
    const std::vector<Lines> stretches = stretches_of(shown);
    auto from = lines.cbegin();
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const Lines& stretch = stretches[i];
        const bool is_first = i == 0, is_last = i + 1 == stretches.size();
        // The last has one place only. For any other the first will do, as it leaves most room.
        if (is_last && lines.cend() - from > std::ssize(stretch))
            from = is_first ? from : lines.cend() - std::ssize(stretch);
        const auto at = std::search(from, lines.cend(), stretch.begin(), stretch.end());
        const auto end = at + std::min(std::ssize(stretch), lines.cend() - at);
        const bool stands = std::equal(at, end, stretch.begin(), stretch.end()) &&
                            (!is_first || at == lines.cbegin()) &&
                            (!is_last || end == lines.cend());
        if (!stands)
            return fmt::format("{}{} the answer, which is:\n{}", as_text(stretch),
                               is_first  ? "does not begin"
                               : is_last ? "does not end"
                                         : "is not where it should be in",
                               as_text(lines));
        from = end;
    }
    return {};
}

}  // namespace backrow::documents
