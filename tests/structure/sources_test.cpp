// A source is cited by a key in square brackets: capitals, then perhaps a year or a number. What
// each stands for is in engine/README.md. A check whose tag says where its numbers come from must
// say so in words above it as well.

#include "source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

using namespace backrow::structure;

namespace {

std::set<std::string> keys_in(const std::string& text) {
    static const std::regex key{R"(\[([A-Z][A-Z0-9]{2,})\])"};
    std::set<std::string> keys;
    for (auto match = std::sregex_iterator(text.begin(), text.end(), key);
         match != std::sregex_iterator(); ++match)
        keys.insert((*match)[1]);
    return keys;
}

/// A document in two parts: the section "## Sources", to the next heading of its rank, and the
/// rest.
struct Document {
    std::string sources, rest;
};

Document parted(const std::string& text) {
    const std::string heading = "\n## Sources\n";
    const auto start = text.find(heading);
    if (start == std::string::npos)
        return {.sources = {}, .rest = text};
    const auto end = std::min(text.find("\n## ", start + heading.size()), text.size());
    return {.sources = text.substr(start, end - start),
            .rest = text.substr(0, start) + text.substr(end)};
}

/// The entries of a list of sources by their keys.
std::map<std::string, std::string> entries_of(const std::string& sources) {
    std::map<std::string, std::string> entries;
    std::istringstream lines(sources);
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with("- ["))
            entries[line.substr(3, line.find(']') - 3)] = line;
    return entries;
}

/// Whether a source as a whole, and not a part of it, was not at hand.
bool is_from_memory(const std::string& entry) {
    return entry.ends_with(" From memory.");
}

/// A test: what stands above it and its tags.
struct Check {
    std::string name;
    std::string above;  ///< The comment, as one line in small letters but for the keys.
    std::set<std::string> tags;
};

std::vector<Check> checks_in(const std::string& text) {
    static const std::regex comment_and_test{R"re(((?:^//[^\n]*\n)*)TEST_CASE\(([^;{]*)\)\s*\{)re",
                                             std::regex::multiline};
    static const std::regex tag{R"(\[([a-z-]+)\])"}, new_line{R"(\s*\n//\s*|\s*\n)"};
    std::vector<Check> checks;
    for (auto match = std::sregex_iterator(text.begin(), text.end(), comment_and_test);
         match != std::sregex_iterator(); ++match) {
        Check check{.name = (*match)[2],
                    .above = std::regex_replace((*match)[1].str(), new_line, " "),
                    .tags = {}};
        for (auto it = std::sregex_iterator(check.name.begin(), check.name.end(), tag);
             it != std::sregex_iterator(); ++it)
            check.tags.insert((*it)[1]);
        checks.push_back(check);
    }
    return checks;
}

bool says(const Check& check, const std::string& words) {
    std::string small = check.above;
    std::ranges::transform(small, small.begin(), [](unsigned char c) { return std::tolower(c); });
    return small.find(words) != std::string::npos;
}

/// What is missing beside a check; empty where nothing is.
std::string complaint(const Check& check, const std::map<std::string, std::string>& sources) {
    static const std::set<std::string> kinds{"published",   "property", "measured",
                                             "from-memory", "practice", "regression"};
    if (std::ranges::count_if(check.tags, [](const auto& t) { return kinds.contains(t); }) != 1)
        return "is not of one kind";
    const auto was_seen = [&](const std::string& key) {
        return sources.contains(key) && !is_from_memory(sources.at(key));
    };
    if (check.tags.contains("published") && std::ranges::none_of(keys_in(check.above), was_seen))
        return "names no source that was seen";
    if (check.tags.contains("from-memory") && !says(check, "from memory"))
        return "does not say that it is from memory";
    if (check.tags.contains("practice") && !says(check, "common practice, no source"))
        return "does not say that it is common practice, no source";
    return {};
}

/// A picture may hold anything in brackets by chance.
bool is_text(const SourceFile& file) {
    return file.text.find('\0') == std::string::npos;
}

std::set<std::string> missing_from(const std::set<std::string>& there,
                                   const std::set<std::string>& wanted) {
    std::set<std::string> missing;
    std::ranges::set_difference(wanted, there, std::inserter(missing, missing.end()));
    return missing;
}

}  // namespace

TEST_CASE("every source that is cited is listed, every source listed is cited",
          "[structure][property]") {
    std::set<std::string> cited_by_code, cited_by_documents;
    for (const char* folder : {"engine", "shaders", "scenes", "tools", "tests"})
        for (const SourceFile& file : files_under(folder))
            if (is_text(file) && !file.path.ends_with(".md"))
                cited_by_code.merge(keys_in(file.text));
    for (const SourceFile& document : documents())
        cited_by_documents.merge(keys_in(parted(document.text).rest));
    const std::set<std::string> listed = keys_in(parted(text_of("engine/README.md")).sources);

    const std::set<std::string> none;
    {
        INFO("cited by code, but not in the Sources of engine/README.md");
        CHECK(missing_from(listed, cited_by_code) == none);
    }
    {
        INFO("cited by a document, but not in the Sources of engine/README.md");
        CHECK(missing_from(listed, cited_by_documents) == none);
    }
    INFO("in the Sources of engine/README.md, but no code cites it");
    CHECK(missing_from(cited_by_code, listed) == none);
}

TEST_CASE("whatever a check's tag says of its numbers stands above it in words",
          "[structure][property]") {
    const auto sources = entries_of(parted(text_of("engine/README.md")).sources);
    std::size_t checks = 0;
    for (const SourceFile& file : files_under("tests"))
        if (file.path.ends_with("_test.cpp"))
            for (const Check& check : checks_in(file.text)) {
                ++checks;
                CAPTURE(file.path, check.name, check.above);
                CHECK(complaint(check, sources) == "");
            }
    CHECK(checks > 400);
}

TEST_CASE("a check that hides where its numbers come from is found", "[structure][property]") {
    // In two parts, or the keys would be taken for citations.
    const std::string open = "[", seen = open + "SEEN1999]", recalled = open + "RECALLED1999]";
    const auto sources =
        entries_of("- " + seen + " A book. Some of it is from memory, not this.\n- " + recalled +
                   " Another. From memory.\n");
    const auto complains = [&](const std::string& above, const std::string& kind) {
        const auto checks = checks_in("int before;\n\n" + above + "TEST_" +
                                      "CASE(\"a name\",\n          \"[optics][" + kind +
                                      "]\") {\n    CHECK(true);\n}\n");
        REQUIRE(checks.size() == 1);
        return !complaint(checks.front(), sources).empty();
    };
    CHECK_FALSE(complains("// By the book\n// " + seen + ".\n", "published"));
    CHECK_FALSE(complains("// " + recalled + ", from\n// memory.\n", "from-memory"));
    CHECK_FALSE(complains("// Common practice,\n// no source.\n", "practice"));
    CHECK_FALSE(complains("", "property"));

    CHECK(complains("// By some book.\n", "published"));
    CHECK(complains("// " + recalled + "\n", "published"));
    CHECK(complains("// " + seen + ", of another test.\n\n", "published"));
    CHECK(complains("// " + recalled + "\n", "from-memory"));
    CHECK(complains("// By eye.\n", "practice"));
    CHECK(complains("// " + seen + "\n", "published][practice"));
    CHECK(complains("", "optics"));
}

TEST_CASE("keys are read out of comments and lists", "[structure][property]") {
    const std::string open = "[", shut = "]";
    const std::string key = open + "RAYS2002" + shut;
    CHECK(keys_in("source " + key + " ch. 22, at[i] and [optics]") ==
          std::set<std::string>{"RAYS2002"});
    const Document parts = parted("# A\n\n## Sources\n- " + key + "\n\n## Licence\nx\n");
    CHECK(parts.sources == "\n## Sources\n- " + key + "\n");
    CHECK(parts.rest == "# A\n\n## Licence\nx\n");
    CHECK(parted("# A\n").sources.empty());
    CHECK(parted("# A\n\n## Sources\n- " + key).rest == "# A\n");
}
