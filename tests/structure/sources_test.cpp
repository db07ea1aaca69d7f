// A source is cited by a key in square brackets: capitals, then perhaps a year or a number. The
// README says what each stands for.

#include "source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iterator>
#include <regex>
#include <set>
#include <string>

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

/// The part of the text from the heading "## Sources" to the next heading of its rank.
std::string sources_section(const std::string& readme) {
    const std::string heading = "\n## Sources\n";
    const auto start = readme.find(heading);
    if (start == std::string::npos)
        return {};
    const auto end = readme.find("\n## ", start + heading.size());
    return readme.substr(start, end - start);
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
    std::set<std::string> cited;
    for (const char* folder : {"engine", "shaders", "scenes", "tools", "tests"})
        for (const SourceFile& file : files_under(folder))
            if (is_text(file))
                cited.merge(keys_in(file.text));
    const std::set<std::string> listed = keys_in(sources_section(text_of("README.md")));

    const std::set<std::string> none;
    INFO("cited, but not in the README's Sources");
    CHECK(missing_from(listed, cited) == none);
    INFO("in the README's Sources, but cited nowhere");
    CHECK(missing_from(cited, listed) == none);
}

TEST_CASE("keys are read out of comments and lists", "[structure][property]") {
    const std::string open = "[", shut = "]";
    const std::string key = open + "RAYS2002" + shut;
    CHECK(keys_in("source " + key + " ch. 22, at[i] and [optics]") ==
          std::set<std::string>{"RAYS2002"});
    CHECK(sources_section("# A\n\n## Sources\n- " + key + "\n\n## Licence\nx\n") ==
          "\n## Sources\n- " + key + "\n");
    CHECK(sources_section("# A\n").empty());
}
