#pragma once

// The options of a verb twice: as its --help tells them, and as the manual's table does.

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace backrow::documents {

/// What --help tells of an option, or of a word without one such as SCENE.
struct Option {
    std::set<std::string> names{};  ///< "-o", "--output".
    std::string type{};   ///< "OUT.png", "INT"; empty for a flag and where words are listed.
    std::string range{};  ///< "16 … 65535"; empty where any value is taken.
    std::set<std::string> words{};  ///< One of these, where only words are taken.
    std::string otherwise{};        ///< What holds where it is not given; empty where none is told.
    bool is_required = false;
    std::string description{};
};

/// A line of the manual's table, its signs for code taken off but in values.
struct OptionRow {
    std::set<std::string> names{};
    std::string type{};
    std::string values{};
    std::string otherwise{};
};

/// The options that a verb's --help tells, but for --help itself.
[[nodiscard]] std::vector<Option> options_in_help(const std::string& help);

/// The lines of the table of options under the heading "## VERB"; none where there is no such
/// table.
[[nodiscard]] std::vector<OptionRow> option_rows(const std::string& manual,
                                                 const std::string& verb);

/// What a row says otherwise than --help does; empty where they agree. What the head of an option
/// does not tell, a range, words or a value by default, must stand in its description.
[[nodiscard]] std::string disagreement(const OptionRow& row, const Option& option);

}  // namespace backrow::documents
