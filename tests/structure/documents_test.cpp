// Documents go out of date in silence: a file moves, a heading is renamed, and whoever reads on
// stands before nothing. So whatever in them can be looked up is looked up.

#include "source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

using namespace backrow::structure;

namespace {

const std::filesystem::path top{BACKROW_SOURCE_DIR};

bool exists(const std::string& path) {
    return std::filesystem::exists(top / path);
}

/// The text without its blocks of code, in which brackets and # mean something else.
std::string without_code_blocks(const std::string& text) {
    std::string kept;
    bool in_block = false;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        const bool is_fence = line.find("```") == line.find_first_not_of(' ') && !line.empty();
        if (is_fence)
            in_block = !in_block;
        else if (!in_block)
            kept += line + '\n';
    }
    return kept;
}

/// Where links and pictures of a document lead inside the project: "file", "file#heading" or
/// "#heading".
std::vector<std::string> relative_links(const std::string& text) {
    static const std::regex link{R"(\]\(([^)\s]+)\))"};
    auto links = matches(without_code_blocks(text), link);
    std::erase_if(links, [](const std::string& to) { return to.find("://") != std::string::npos; });
    return links;
}

/// What a heading is called in a link: small letters, hyphens for spaces, no other signs.
std::string anchor_of(const std::string& heading) {
    std::string anchor;
    for (const char c : heading) {
        const auto letter = static_cast<unsigned char>(c);
        if (c == ' ')
            anchor += '-';
        else if (std::isalnum(letter) != 0 || c == '-' || c == '_')
            anchor += static_cast<char>(std::tolower(letter));
    }
    return anchor;
}

std::set<std::string> anchors(const std::string& text) {
    std::set<std::string> found;
    std::istringstream lines(without_code_blocks(text));
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with('#'))
            found.insert(anchor_of(line.substr(std::min(line.find(' '), line.size() - 1) + 1)));
    return found;
}

/// The links of a document that lead nowhere. path is its own, from the top of the project.
std::vector<std::string> broken_links(const std::string& path, const std::string& text) {
    auto links = relative_links(text);
    std::erase_if(links, [&](const std::string& to) {
        const std::string file = to.substr(0, to.find('#'));
        const std::string target = file.empty() ? path
                                                : (std::filesystem::path{path}.parent_path() / file)
                                                      .lexically_normal()
                                                      .generic_string();
        if (!exists(target))
            return false;
        return to.find('#') == std::string::npos ||
               anchors(file.empty() ? text : text_of(target)).contains(to.substr(to.find('#') + 1));
    });
    return links;
}

/// Words in back-ticks that are paths: from the top of the project, or from engine/, where a layer
/// is named first.
std::vector<std::string> paths_in_backticks(const std::string& text) {
    static const std::regex quoted{"`([^`\n]+)`"};
    std::vector<std::string> paths;
    for (const std::string& code : matches(without_code_blocks(text), quoted)) {
        std::istringstream words(code);
        for (std::string word; words >> word;) {
            const auto slash = word.find('/');
            if (slash == std::string::npos)
                continue;
            const std::string first = word.substr(0, slash);
            static constexpr std::array folders{"engine", "scenes", "shaders", "tests", "tools"};
            if (std::ranges::find(folders, first) != folders.end())
                paths.push_back(word);
            else if (!first.empty() && std::filesystem::is_directory(top / "engine" / first))
                paths.push_back("engine/" + word);
        }
    }
    return paths;
}

std::vector<std::string> missing(std::vector<std::string> paths) {
    std::erase_if(paths, exists);
    return paths;
}

/// A name that a row of the table of rules gives, "`name`" or "`name()`", and the file it names.
struct RulePlace {
    std::string name;
    bool is_function;
    std::string path;
};

std::vector<RulePlace> rule_places(const std::string& row) {
    static const std::regex place{R"(`(\w+)(\(\))?` in (`[^`\n]+`))"};
    std::vector<RulePlace> places;
    for (auto match = std::sregex_iterator(row.begin(), row.end(), place);
         match != std::sregex_iterator(); ++match)
        for (const std::string& path : paths_in_backticks((*match)[3]))
            places.push_back({(*match)[1], (*match)[2].matched, path});
    return places;
}

/// Whether code, not a comment, says the name: a function's with its arguments.
bool holds(const std::string& code, const RulePlace& place) {
    static const std::regex comment{R"(//[^\n]*)"};
    const std::regex name{"\\b" + place.name + (place.is_function ? "\\(" : "\\b")};
    return std::regex_search(std::regex_replace(code, comment, ""), name);
}

/// The rows of the tables of a section, without their heads.
std::vector<std::string> rows_of(const std::string& section) {
    std::vector<std::string> rows;
    bool in_body = false;
    std::istringstream lines(section);
    for (std::string line; std::getline(lines, line);) {
        if (in_body && line.starts_with("| "))
            rows.push_back(line);
        in_body = line.starts_with("|---") || (in_body && line.starts_with('|'));
    }
    return rows;
}

/// The part of a text from a heading to the next one; empty where there is no such heading.
std::string section(const std::string& text, const std::string& heading) {
    const auto start = text.find('\n' + heading + '\n');
    if (start == std::string::npos)
        return {};
    return text.substr(start, text.find("\n#", start + 1) - start);
}

}  // namespace

TEST_CASE("the README is short enough to be finished", "[structure][property]") {
    const std::string readme = text_of("README.md");
    CHECK(!readme.empty());
    CHECK(std::ranges::count(readme, '\n') <= 200);
}

TEST_CASE("links between documents lead somewhere", "[structure][property]") {
    for (const SourceFile& document : documents()) {
        CAPTURE(document.path);
        CHECK(broken_links(document.path, document.text) == std::vector<std::string>{});
    }
}

TEST_CASE("the files that DEVELOPERS names are there", "[structure][property]") {
    const auto paths = paths_in_backticks(text_of("DEVELOPERS.md"));
    CHECK(paths.size() > 50);
    CHECK(missing(paths) == std::vector<std::string>{});
}

TEST_CASE("every rule is two steps away: its file, and in that the name to begin at",
          "[structure][property]") {
    const auto rules = rows_of(section(text_of("DEVELOPERS.md"), "## Where is the rule for …"));
    for (const std::string& rule : rules) {
        CAPTURE(rule);
        const std::vector<RulePlace> places = rule_places(rule);
        CHECK(!places.empty());
        CHECK(places.size() == paths_in_backticks(rule).size());
        for (const RulePlace& place : places) {
            CAPTURE(place.name, place.path);
            CHECK(holds(text_of(place.path), place));
        }
    }
    for (const std::string asked :
         {"blur circle", "grades", "passes", "eyes", "who or what hides whom", "framing",
          "exposure", "a drag", "a margin"}) {
        CAPTURE(asked);
        CHECK(std::ranges::any_of(rules, [&](const std::string& rule) {
            return rule.substr(0, rule.find('|', 1)).find(asked) != std::string::npos;
        }));
    }
}

// A file of this machine is not one that everybody gets: of the pictures, only those are kept that
// .gitignore makes an exception for.
TEST_CASE("the pictures that documents show are kept, and no others", "[structure][property]") {
    std::set<std::string> shown;
    for (const SourceFile& document : documents())
        for (const std::string& to : relative_links(document.text)) {
            const auto path =
                (std::filesystem::path{document.path}.parent_path() / to).lexically_normal();
            if (path.extension() == ".png")
                shown.insert(path.generic_string());
        }
    static const std::regex exception{R"(!/(\S+\.png)\n)"};
    const auto excepted = matches(text_of(".gitignore"), exception);
    CHECK(shown.size() > 10);
    CHECK(shown == std::set<std::string>(excepted.begin(), excepted.end()));
    CHECK(missing(excepted) == std::vector<std::string>{});
}

TEST_CASE("the manual's exit codes are those of the program", "[structure][property]") {
    static const std::regex enumerator{R"(\w+ = (\d+),)"}, code{R"(^\| (\d+) \|)"};
    const auto codes = matches(text_of("tools/backrow/exit_code.h"), enumerator);
    std::vector<std::string> told;
    for (const std::string& row : rows_of(section(text_of("tools/README.md"), "## Exit codes")))
        for (const std::string& number : matches(row, code))
            told.push_back(number);
    CHECK(codes.size() >= 6);
    CHECK(told == codes);
}

TEST_CASE("links, headings and paths are read as they are written", "[structure][property]") {
    const std::string text =
        "# A thing, `quoted`\n"
        "see [one](scenes/README.md#when-something-is-wrong), [two](#a-thing-quoted),\n"
        "![three](no/picture.png), [four](https://example.org/x)\n"
        "```\n[five](no/file) `tests/none.cpp`\n```\n"
        "`tools/no-such --option`, `optics/none.h`, `and/or`, `thin_lens.h`\n";
    CHECK(relative_links(text) ==
          std::vector<std::string>{"scenes/README.md#when-something-is-wrong", "#a-thing-quoted",
                                   "no/picture.png"});
    CHECK(broken_links("README.md", text) == std::vector<std::string>{"no/picture.png"});
    CHECK(broken_links("README.md", "# A\n[x](#b) [y](DEVELOPERS.md#no-such-heading)") ==
          std::vector<std::string>{"#b", "DEVELOPERS.md#no-such-heading"});
    CHECK(anchor_of("`[setting]` and `[[setting.backdrop]]`") == "setting-and-settingbackdrop");
    CHECK(paths_in_backticks(text) ==
          std::vector<std::string>{"tools/no-such", "engine/optics/none.h"});
    CHECK(missing({"engine/optics/none.h", "engine/optics/lens/lens.h"}) ==
          std::vector<std::string>{"engine/optics/none.h"});
    CHECK(section("# A\n\n## B\nx\n\n## C\ny\n", "## B") == "\n## B\nx\n");
    CHECK(section("# A\n", "## B").empty());
    CHECK(rows_of("| a | b |\n|---|---|\n| c | d |\n| e | f |\n\n| g |\n") ==
          std::vector<std::string>{"| c | d |", "| e | f |"});

    const auto places =
        rule_places("| a rule | `f()` in `optics/lens/lens.h`; see `base/units.h`, `X` in "
                    "`shaders/lens.glsl` |");
    REQUIRE(places.size() == 2);
    CHECK(places[0].name == "f");
    CHECK(places[0].path == "engine/optics/lens/lens.h");
    CHECK(places[1].name == "X");
    CHECK(holds("double f(double x);", places[0]));
    CHECK_FALSE(holds("double f_of(double x); int f; // f(1)", places[0]));
    CHECK(holds("class X {};", places[1]));
    CHECK_FALSE(holds("class Xylophone {};", places[1]));
}
