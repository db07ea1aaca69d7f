// The keys of --format json: whatever the manual lists is printed, whatever is printed is listed.

#include "documents/tables.h"
#include "documents/terminal.h"

#include "structure/source_files.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace backrow::documents {
namespace {

using Keys = std::set<std::string>;

void gather(const nlohmann::json& value, Keys& keys) {
    if (value.is_object())
        for (const auto& [key, inner] : value.items()) {
            keys.insert(key);
            gather(inner, keys);
        }
    else if (value.is_array())
        for (const auto& inner : value)
            gather(inner, keys);
}

Keys words_in(const std::string& text) {
    static const std::regex quoted{"`([a-z][a-z0-9_]*)`"};
    const std::vector<std::string> words = matches(text, quoted);
    return {words.begin(), words.end()};
}

struct Listed {
    Keys keys;   ///< Those of the first column.
    Keys words;  ///< All that is quoted, keys of keys among it.
};

/// The table of keys below a line of the manual.
Listed listed_below(const std::string& manual, const std::string& line) {
    const auto start = manual.find("\n" + line);
    REQUIRE(start != std::string::npos);
    const auto table = manual.find("\n| key |", start);
    REQUIRE(table != std::string::npos);
    const std::string rows = manual.substr(table + 1, manual.find("\n\n", table) - table);
    Listed listed{.keys = {}, .words = words_in(rows)};
    std::istringstream lines(rows);
    for (std::string row; std::getline(lines, row);)
        listed.keys.merge(words_in(row.substr(0, row.find('|', 1))));
    return listed;
}

Keys without(const Keys& all, const Keys& some) {
    Keys left;
    std::ranges::set_difference(all, some, std::inserter(left, left.end()));
    return left;
}

struct Print {
    std::string below;  ///< The line of the manual over its table.
    std::vector<std::string> commands;
};

}  // namespace

TEST_CASE("the keys that the manual lists are those of the JSON", "[documents][property]") {
    const std::string choir = " scenes/choir.toml --format json";
    const std::vector<Print> prints{
        {"`--format json` prints one object.",
         {"backrow faces" + choir, "backrow faces" + choir + " --set camera.distance_m=6",
          "backrow preview" + choir + " -o a.png --width 64 --samples 1"}},
        {"That of `odds`:", {"backrow odds" + choir + " --trials 1000"}},
        {"That of `advise`:",
         {"backrow advise" + choir + " --distance-max 12 --crop",
          "backrow advise" + choir + " --grade crisp --narrowest 2 --move-max 0; test $? -eq 4"}},
        {"That of `tradeoff`:", {"backrow tradeoff" + choir + " -o a.png --lens 50"}},
        {"That of `strip`:", {"backrow strip" + choir + " -o a.png --f-numbers 2,4 --samples 1"}},
        {"That of `lens measure`:",
         {"backrow lens measure scenes/pictures/crew.png --format json"}},
        {"That of `inspect`:",
         {"backrow inspect scenes/pictures/couple.png scenes/pictures/choir.png --box 0,0,60,90 "
          "--use pixels --format json"}},
        {"That of `arrange`:",
         {"backrow arrange -o a.toml --people 12 --ages Mia=2 --carried Mia=Anna --format json"}},
    };
    const std::string manual = structure::text_of("tools/README.md");
    const Terminal terminal;
    for (const Print& print : prints) {
        Keys printed;
        for (const std::string& command : print.commands) {
            CAPTURE(command);
            const command::Ran ran = terminal.run(command);
            REQUIRE(ran.exit_code == 0);
            gather(nlohmann::json::parse(ran.out), printed);
        }
        const Listed listed = listed_below(manual, print.below);
        CAPTURE(print.below);
        CHECK(without(listed.keys, printed) == Keys{});
        CHECK(without(printed, listed.words) == Keys{});
    }
}

TEST_CASE("keys are read out of tables and of JSON", "[documents][property]") {
    const Listed listed = listed_below("a\n\nThat:\n\n| key | meaning |\n|---|---|\n| `b` | see "
                                       "`c` |\n| … `d`, `e` | |\n\n| `f` |",
                                       "That:");
    CHECK(listed.keys == Keys{"b", "d", "e"});
    CHECK(listed.words == Keys{"b", "c", "d", "e"});
    Keys keys;
    gather(nlohmann::json::parse(R"({"a": [{"b": 1}, {"c": {"d": null}}]})"), keys);
    CHECK(keys == Keys{"a", "b", "c", "d"});
    CHECK(without({"a", "b"}, {"b", "c"}) == Keys{"a"});
}

}  // namespace backrow::documents
