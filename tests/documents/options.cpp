#include "options.h"

#include "tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <regex>
#include <sstream>

namespace backrow::documents {
namespace {

// Where a description begins: behind the head of the option, or where that is longer on a line of
// its own. In bytes, as the library that prints it counts.
constexpr std::size_t description_at = 34;

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

std::string without(std::string text, const std::string& what) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what))
        text.erase(at, what.size());
    return text;
}

/// Thousands are parted in the manual and not in --help.
std::string plain(const std::string& number) {
    return without(without(number, ","), "`");
}

/// "-o,--output OUT.png REQUIRED", "--width INT:INT in [16 - 65535]=1920",
/// "--format text|json|csv=text", "--set KEY=VALUE ...", "--stagger,--no-stagger{false}", "SCENE
/// TEXT".
Option option_of(const std::string& head) {
    static const std::regex form{R"(^(\S+?)(?:\{\w+\})?)"             // names
                                 R"((?: ([^\s:=]+(?:=[A-Z]+)?))?)"    // type or words
                                 R"((?::\w+ in \[(\S+) - (\S+)\])?)"  // range
                                 R"((?:=(\S+))?)"                     // default
                                 R"(( REQUIRED)?(?: \.\.\.)?( REQUIRED)?$)"};
    static const std::regex words{R"(^[a-z]+(\|[a-z]+)+$)"}, one_word{R"(([a-z]+))"},
        one_name{R"(([^,]+))"};
    std::smatch match;
    if (!std::regex_match(head, match, form))
        return {};
    Option option;
    for (const std::string& name : matches(match[1], one_name))
        option.names.insert(name);
    const std::string type = match[2];
    if (std::regex_match(type, words))
        for (const std::string& word : matches(type, one_word))
            option.words.insert(word);
    else
        option.type = type;
    if (match[3].matched)
        option.range = fmt::format("{} … {}", match[3].str(), match[4].str());
    option.otherwise = match[5];
    option.is_required = match[6].matched || match[7].matched;
    return option;
}

}  // namespace

std::vector<Option> options_in_help(const std::string& help) {
    const std::vector<std::string> lines = lines_of(help);
    const std::string indent(description_at, ' ');
    std::vector<Option> options;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string& line = lines[i];
        if (!line.starts_with("  ") || line.starts_with("   "))
            continue;
        const bool is_long = i + 1 < lines.size() && lines[i + 1].starts_with(indent);
        Option option = option_of(trimmed(is_long ? line : line.substr(0, description_at)));
        option.description =
            trimmed(is_long ? lines[i + 1] : line.substr(std::min(description_at, line.size())));
        if (!option.names.contains("--help"))
            options.push_back(option);
    }
    return options;
}

std::vector<OptionRow> option_rows(const std::string& manual, const std::string& verb) {
    static const std::regex code{"`([^`]+)`"};
    std::vector<OptionRow> rows;
    bool in_verb = false, in_table = false;
    for (const std::string& line : lines_of(manual)) {
        if (line.starts_with("## "))
            in_verb = line == "## " + verb;
        // A verb below another has a part of that one's.
        if (line.starts_with("### ") && verb.find(' ') != std::string::npos)
            in_verb = line == "### " + verb;
        in_table =
            in_verb && (line.starts_with("| option |") || (in_table && line.starts_with('|')));
        if (!in_table || !(line.starts_with("| `")))
            continue;
        const std::vector<std::string> cells = cells_of(line);
        OptionRow row{.values = cells.at(1), .otherwise = without(cells.at(2), "`")};
        for (const std::string& name : matches(cells.at(0), code)) {
            const auto space = std::min(name.find(' '), name.size());
            row.names.insert(name.substr(0, space));
            if (space < name.size())
                row.type = name.substr(space + 1);
        }
        rows.push_back(row);
    }
    return rows;
}

std::string disagreement(const OptionRow& row, const Option& option) {
    static const std::regex code{"`([^`]+)`"}, range{R"([\d.,]+ … [\d.,]+)"}, number{R"([\d.,]+)"};
    const auto told = [&](const std::string& words) {
        return option.description.find(words) != std::string::npos;
    };
    if (row.names != option.names)
        return "its names differ";
    if (!row.type.empty() && row.type != option.type)
        return "its type differs: " + option.type;
    if (option.is_required != (row.otherwise == "required"))
        return "whether it is required differs";

    const std::string values = plain(row.values);
    if (!option.range.empty() && values != option.range)
        return "its range differs: " + option.range;
    if (option.range.empty() && std::regex_match(row.values, range)) {
        std::string in_words = values;
        in_words.replace(in_words.find("…"), std::string{"…"}.size(), "to");
        if (!told(in_words))
            return "--help tells no range";
    }
    const std::vector<std::string> listed = matches(row.values, code);
    if (!option.words.empty() && std::set(listed.begin(), listed.end()) != option.words)
        return "its words differ";
    if (option.words.empty() && !std::ranges::all_of(listed, told))
        return "--help does not tell all of its words";

    if (!option.otherwise.empty() && plain(row.otherwise) != option.otherwise)
        return "its default differs: " + option.otherwise;
    if (option.otherwise.empty() && std::regex_match(row.otherwise, number) &&
        !told(plain(row.otherwise)))
        return "--help tells no default";
    return {};
}

}  // namespace backrow::documents
