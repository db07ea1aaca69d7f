// The tables of keys in the manual of the scene file: a value beyond what they allow is refused
// with the very range or words that stand there, and a default that is written out changes nothing.

#include "documents/tables.h"
#include "documents/terminal.h"

#include "structure/source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace backrow::documents {
namespace {

/// A line of a table: a key as --set takes it, and the cells that say what it may be.
struct KeyRow {
    std::string key;
    std::string values;
    std::string otherwise;  ///< Empty where the table has no column of defaults.
};

// Everything that has keys is in it once, and nothing is said that has a default.
const std::string scene = "cat > all.toml << END\n"
                          "[[row]]\npeople = [\"Odile\", \"Bram\", \"Sefu\"]\n"
                          "[[person]]\nname = \"Bram\"\n"
                          "[[setting.backdrop]]\nkind = \"hedge\"\n"
                          "[[model]]\nfile = \"scenes/models/hassock.obj\"\nback_m = 3\n"
                          "END\n";

/// What goes before the keys of a section, from its heading "### `[camera]`"; empty for none.
std::string prefix_of(const std::string& heading) {
    static const std::regex table{R"(^### `\[+(\w+)\]+`)"};
    std::smatch match;
    if (!std::regex_search(heading, match, table))
        return {};
    const std::string name = match[1];
    if (name == "person")
        return "person.Bram.";
    return heading.find("[[" + name) == std::string::npos ? name + "." : name + ".0.";
}

std::vector<std::string> parts_of(const std::string& text) {
    static const std::regex part{R"(([^,\s][^,]*))"};
    return matches(text, part);
}

std::vector<KeyRow> key_rows(const std::string& manual) {
    static const std::regex quoted{"`([^`]+)`"};
    std::vector<KeyRow> rows;
    std::string prefix;
    bool in_table = false, has_defaults = false;
    std::istringstream lines(manual);
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with('#'))
            prefix = prefix_of(line);
        if (line.starts_with("| key |"))
            has_defaults = line.find("| default |") != std::string::npos;
        in_table = line.starts_with("| key |") || (in_table && line.starts_with('|'));
        if (prefix.empty() || !in_table || !line.starts_with("| `"))
            continue;
        const std::vector<std::string> cells = cells_of(line);
        const std::vector<std::string> keys = matches(cells.at(0), quoted);
        const std::string otherwise = has_defaults ? cells.at(2) : "";
        const std::vector<std::string> each = parts_of(otherwise);
        const bool is_backdrops = cells[0].find("(of a") != std::string::npos;
        for (std::size_t i = 0; i < keys.size(); ++i)
            rows.push_back({.key = is_backdrops ? "setting.backdrop.0." + keys[i]
                                   : keys[i].starts_with("setting.") ? keys[i]
                                                                     : prefix + keys[i],
                            .values = cells.at(1),
                            .otherwise = each.size() == keys.size() ? each[i] : otherwise});
    }
    return rows;
}

/// A number of the manual: thousands parted, a real minus.
double number_of(std::string text) {
    std::erase(text, ',');
    const std::string minus = "−";
    const bool negative = text.starts_with(minus);
    return (negative ? -1 : 1) * std::strtod(text.c_str() + (negative ? minus.size() : 0), nullptr);
}

struct Limits {
    double least, greatest;
    bool operator==(const Limits&) const = default;
};

/// "1 … 300"; for places in a list "[1 … 300, 1 … 300]" or "[across, up, back] of −300 … 300"; the
/// first of them.
std::optional<Limits> limits_in(const std::string& values) {
    static const std::regex range{R"(((?:−)?[\d.,]+) … ([\d.,]*\d))"};
    std::smatch match;
    if (!std::regex_search(values, match, range))
        return {};
    const double least = values.starts_with("0, or ") ? 0 : number_of(match[1]);
    return Limits{least, number_of(match[2])};
}

/// Of the message "…; write a number from 0.5 to 128".
std::optional<Limits> limits_told(const std::string& message) {
    static const std::regex range{R"(from (-?[\d.e-]+) to ([\d.e]+))"};
    std::smatch match;
    if (!std::regex_search(message, match, range))
        return {};
    return Limits{std::strtod(match[1].str().c_str(), nullptr),
                  std::strtod(match[2].str().c_str(), nullptr)};
}

std::set<std::string> words_in(const std::string& values) {
    static const std::regex word{"`\"([^`]+)\"`"};
    const auto words = matches(values, word);
    return {words.begin(), words.end()};
}

/// Of the message "…; orientation is one of landscape, portrait".
std::set<std::string> words_told(const std::string& message) {
    static const std::regex list{" is one of ([^\n]+)\n"};
    std::smatch match;
    if (!std::regex_search(message, match, list))
        return {};
    const auto words = parts_of(match[1]);
    return {words.begin(), words.end()};
}

/// As many numbers as the key takes, all far beyond any range.
std::string beyond(const std::string& values) {
    const auto open = values.find('[');
    if (open == std::string::npos)
        return "1e15";
    const std::string list = values.substr(open, values.find(']') - open);
    return std::ranges::count(list, ',') == 1 ? "[1e15,1e15]" : "[1e15,1e15,1e15]";
}

bool takes_words_alone(const KeyRow& row) {
    return row.values.starts_with("`\"") && row.values.find(" or ") == std::string::npos &&
           row.values.find("a name") == std::string::npos;
}

std::string answer(const Terminal& terminal, const std::string& key, const std::string& value) {
    return terminal.run("backrow faces all.toml --set '" + key + "=" + value + "'").out;
}

}  // namespace

TEST_CASE("a key takes what the manual's table says", "[documents][property]") {
    const Terminal terminal;
    REQUIRE(terminal.run(scene).exit_code == 0);
    int numbers = 0, words = 0, switches = 0;
    for (const KeyRow& row : key_rows(structure::text_of("scenes/README.md"))) {
        CAPTURE(row.key, row.values);
        if (const auto limits = limits_in(row.values)) {
            ++numbers;
            const std::string told = answer(terminal, row.key, beyond(row.values));
            CAPTURE(told);
            CHECK((limits == limits_told(told)));
        } else if (takes_words_alone(row)) {
            ++words;
            CHECK(words_in(row.values) == words_told(answer(terminal, row.key, "nonsense")));
        } else if (row.values.starts_with("true")) {
            ++switches;
            CHECK_THAT(answer(terminal, row.key, "nonsense"),
                       Catch::Contains("write true or false"));
        }
    }
    CHECK(numbers > 50);
    CHECK(words > 10);
    CHECK(switches > 4);
}

TEST_CASE("a default that is written out changes nothing", "[documents][property]") {
    static const std::regex value{R"(^(-?\d+(?:\.\d+)?|\[.*\]|true|false|`".*"`)$)"};
    const Terminal terminal;
    REQUIRE(terminal.run(scene).exit_code == 0);
    const auto table = [&](const std::string& set) {
        return terminal
            .run("backrow faces all.toml --format csv" + set +
                 " && backrow odds all.toml --trials 20000" + set)
            .out;
    };
    const std::string plain = table("");
    int defaults = 0;
    for (const KeyRow& row : key_rows(structure::text_of("scenes/README.md"))) {
        std::string written = row.otherwise;
        std::erase(written, '`');
        // How somebody is carried may be said only of somebody who is.
        if (!std::regex_match(row.otherwise, value) || row.key == "person.Bram.carried")
            continue;
        ++defaults;
        CAPTURE(row.key, written);
        CHECK(table(" --set '" + row.key + "=" + written + "'") == plain);
    }
    CHECK(defaults > 50);
}

}  // namespace backrow::documents
