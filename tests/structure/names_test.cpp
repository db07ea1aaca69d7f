// What a document calls by a name of the code is so called in the code: a type or a function that
// was renamed leaves the documents behind, and nobody can look up what they say.

#include "source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iterator>
#include <regex>
#include <set>
#include <string>

using namespace backrow::structure;

namespace {

using Words = std::set<std::string>;

/// Letters, digits and underlines, of three and more; not the endings "_px" and such.
Words words_in(const std::string& text) {
    static const std::regex word{R"([A-Za-z_]\w{2,})"};
    Words words;
    for (auto match = std::sregex_iterator(text.begin(), text.end(), word);
         match != std::sregex_iterator(); ++match)
        if (match->str().front() != '_')
            words.insert(match->str());
    return words;
}

/// The words in back-ticks, outside blocks of code.
Words names_in(const std::string& document) {
    static const std::regex block{"```[^]*?```"}, quoted{"`([^`\n]+)`"};
    const std::string text = std::regex_replace(document, block, "");
    Words names;
    for (auto match = std::sregex_iterator(text.begin(), text.end(), quoted);
         match != std::sregex_iterator(); ++match)
        names.merge(words_in((*match)[1]));
    return names;
}

Words missing_from(const Words& there, const Words& wanted) {
    Words missing;
    std::ranges::set_difference(wanted, there, std::inserter(missing, missing.end()));
    return missing;
}

}  // namespace

TEST_CASE("what DEVELOPERS and the physics call by a name is so called in the code",
          "[structure][property]") {
    Words in_code;
    for (const char* folder : {"engine", "shaders", "scenes", "tools", "tests"})
        for (const SourceFile& file : files_under(folder))
            if (!file.path.ends_with(".md") && !file.path.ends_with(".png")) {
                in_code.merge(words_in(file.path));
                in_code.merge(words_in(file.text));
            }
    for (const char* top : {"CMakeLists.txt", ".gitignore"})
        in_code.merge(words_in(top + (' ' + text_of(top))));
    for (const char* document : {"DEVELOPERS.md", "engine/README.md"}) {
        const Words names = names_in(text_of(document));
        CAPTURE(document);
        CHECK(names.size() > 30);
        CHECK(missing_from(in_code, names) == Words{});
    }
}

TEST_CASE("names are read out of back-ticks", "[structure][property]") {
    CHECK(names_in("Plain words, `WindowState::make()` and `_px`, `f/2`.\n```\n`block`\n```\n"
                   "`a/path_to.h`") == Words{"WindowState", "make", "path_to"});
    CHECK(missing_from({"a", "b"}, {"b", "c"}) == Words{"c"});
}
