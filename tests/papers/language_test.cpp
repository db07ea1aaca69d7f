#include "papers/words/language.h"

#include "groups.h"

#include "plan/comparing/cautions.h"

#include "base/assets.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>
#include <vector>

using namespace backrow;
using namespace backrow::papers;

namespace {

/// A literal of the sources of the layer, with those that it goes on with.
struct Literal {
    std::string file;
    std::string before;  ///< What stands before it, spaces left out.
    std::string text;
};

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file{path};
    return {std::istreambuf_iterator<char>{file}, {}};
}

std::string without_comments(const std::string& code) {
    static const std::regex comment{R"(//[^\n]*|#include[^\n]*)"};
    return std::regex_replace(code, comment, "");
}

std::vector<Literal> literals() {
    static const std::regex literal{R"re(((?:"(?:[^"\\]|\\.)*"\s*)+))re"};
    static const std::regex piece{R"re("((?:[^"\\]|\\.)*)")re"};
    std::vector<Literal> found;
    for (const auto& entry : std::filesystem::recursive_directory_iterator{
             std::string{BACKROW_SOURCE_DIR} + "/engine/papers"}) {
        if (entry.path().extension() != ".cpp" && entry.path().extension() != ".h")
            continue;
        const std::string code = without_comments(text_of(entry.path()));
        const std::sregex_iterator end;
        for (std::sregex_iterator at{code.begin(), code.end(), literal}; at != end; ++at) {
            std::string text, before = at->prefix().str();
            const std::string all = at->str();
            for (std::sregex_iterator p{all.begin(), all.end(), piece}; p != end; ++p)
                text += (*p)[1].str();
            std::erase_if(before, [](char letter) { return std::isspace(letter) != 0; });
            found.push_back({entry.path().filename().string(),
                             before.substr(before.size() - std::min<std::size_t>(before.size(), 5)),
                             text});
        }
    }
    REQUIRE(found.size() > 50);
    return found;
}

bool is_said(const Literal& literal) {
    return literal.before.ends_with("say(") || literal.before.ends_with("add(");
}

std::set<std::string> all_sentences() {
    std::set<std::string> sentences;
    for (const Literal& literal : literals())
        if (is_said(literal))
            sentences.insert(literal.text);
    for (int i = 0; i <= static_cast<int>(plan::Caution::child_carried); ++i)
        sentences.insert(to_words(static_cast<plan::Caution>(i)));
    REQUIRE(sentences.size() > 60);
    return sentences;
}

}  // namespace

TEST_CASE("each sentence has a translation with the same placeholders, and no translation is left "
          "over",
          "[papers][property]") {
    const std::set<std::string> sentences = all_sentences();
    for (const std::string code : languages) {
        if (code == languages.front())
            continue;
        CAPTURE(code);
        const auto catalogue =
            read_catalogue(*read_text(*find_asset("words/" + code + ".mo")), code);
        REQUIRE(catalogue);
        for (const std::string& sentence : sentences) {
            CAPTURE(sentence);
            CHECK(catalogue->contains(sentence));
        }
        for (const auto& [sentence, translation] : *catalogue) {
            CAPTURE(sentence);
            CHECK(sentences.contains(sentence));
            CHECK(placeholders(sentence) == placeholders(translation));
        }
    }
}

// Messages about a broken installation are no sentences of a paper, nor is what begins as a tag.
TEST_CASE("no sentence of a paper goes past the catalogue", "[papers][property]") {
    static const std::regex a_word{"[A-Za-z]{4,}"};
    for (const Literal& literal : literals()) {
        if (literal.file == "catalogue.cpp" || is_said(literal) || literal.text.starts_with('<'))
            continue;
        CAPTURE(literal.file, literal.text);
        CHECK_FALSE((literal.text.find(' ') != literal.text.npos &&
                     std::regex_search(literal.text, a_word)));
    }
}

TEST_CASE("parts go where the language wants them, names as they are", "[papers][property]") {
    const Language backwards{{{"{who} has {room}", "{room} hat {who}"}}};
    CHECK(backwards.say("{who} has {room}", {{"who", "{room} & co"}, {"room", "3 cm"}}) ==
          "3 cm hat {room} & co");
    CHECK(Language{}.say("{who} has {room}", {{"who", "Bo"}}) == "Bo has {room}");
    CHECK(backwards.say("not translated") == "not translated");
}

TEST_CASE("German numbers have a comma, no number is broken off its unit, and full stops stay",
          "[papers][property]") {
    const Language language = german();
    CHECK(language.number("f/2.8") == "f/2,8");
    CHECK(language.number("4.58 m") == "4,58\u00a0m");
    CHECK(language.number("1/250 s.") == "1/250\u00a0s.");
    CHECK(Language{}.number("f/2.8") == "f/2.8");
}

TEST_CASE("the locale chooses the language, LC_ALL before LC_MESSAGES before LANG",
          "[papers][property]") {
    using Values = std::map<std::string, const char*>;
    static Values values;
    const auto chosen = [](Values now) {
        values = std::move(now);
        return language_asked_for([](const char* variable) -> const char* {
            const auto found = values.find(variable);
            return found == values.end() ? nullptr : found->second;
        });
    };
    CHECK(chosen({}) == "en");
    CHECK(chosen({{"LANG", "de_AT.UTF-8"}}) == "de");
    CHECK(chosen({{"LANG", "de"}, {"LC_ALL", "C"}}) == "en");
    CHECK(chosen({{"LANG", "fr_FR.UTF-8"}, {"LC_MESSAGES", "de_DE@euro"}}) == "de");
    CHECK(chosen({{"LANG", "de_DE.UTF-8"}, {"LC_ALL", ""}}) == "de");
    CHECK(chosen({{"LANG", "sw_KE.UTF-8"}}) == "en");
}
