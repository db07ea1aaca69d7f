// A source is cited by a key in square brackets: capitals, then perhaps a year or a number. What
// each stands for is in engine/README.md.

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
