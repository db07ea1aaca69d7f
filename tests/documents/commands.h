#pragma once

// The commands that a document shows, each with what it shows as the answer.

#include <string>
#include <vector>

namespace backrow::documents {

/// A line that begins with "$ " in a block of code, and the lines below it.
struct Command {
    int line = 0;      ///< Of the document, counted from 1.
    std::string text;  ///< For the shell: whole, where it goes on over several lines.
    std::vector<std::string> shown{};  ///< The answer; "…" stands for lines that are left out.
};

/// The commands of a document in Markdown, in their order. A command goes on after a line that ends
/// with a backslash, and after "<< END" up to the line END.
[[nodiscard]] std::vector<Command> commands_in(const std::string& markdown);

/// Where an answer is not as shown: the lines that it lacks, or says too early or too late. Empty
/// where it is as shown.
[[nodiscard]] std::string departure(const std::vector<std::string>& shown,
                                    const std::string& answer);

}  // namespace backrow::documents
