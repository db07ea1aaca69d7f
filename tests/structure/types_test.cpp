// Two files of a layer that each define a type of the same name, in the same namespace, break the
// language's rule of one definition: the linker keeps the members of one of them, and says nothing.
// So no name may be defined twice. An unnamed namespace is each file's own and is left out.

#include "source_files.h"

#include <catch2/catch.hpp>

#include <map>
#include <regex>
#include <string>
#include <vector>

using namespace backrow::structure;

namespace {

/// The text with comments, literals, directives and attributes blanked: what is left has the braces
/// and the names.
std::string code_of(const std::string& text) {
    static const std::regex not_code{
        R"re(//[^\n]*|/\*[^]*?\*/|R"(\w*)\([^]*?\)\1"|"(?:\\.|[^"\\\n])*")re"
        R"re(|'(?:\\.|[^'\\\n])'|\[\[[^\]]*\]\]|(?:^|\n)[ \t]*#(?:\\\n|[^\n])*)re"};
    return std::regex_replace(text, not_code, " ");
}

bool opens_scope(const std::string& word) {
    return word == "struct" || word == "class" || word == "union" || word == "namespace" ||
           word == "enum" || word.starts_with("enum ");
}

/// A scope that is open.
struct Scope {
    std::string name;
    bool shared = true;  ///< Whether other files see what is named in it.
};

/// The types that a file defines outside functions and unnamed namespaces, with all their scopes:
/// "backrow::plan::Tradeoff".
std::vector<std::string> types_in(const std::string& text) {
    static const std::regex token{R"([{};<>=()]|enum\s+(?:class|struct)\b|[A-Za-z_][\w:]*)"};
    const std::string code = code_of(text);
    std::vector<std::string> found;
    std::vector<Scope> scopes;
    std::string kind, name;
    bool named = false;  // Whether the word after the kind has been read.
    int angles = 0;
    const auto forget = [&] {
        angles = 0;
        kind.clear();
        name.clear();
        named = false;
    };
    for (auto it = std::sregex_iterator(code.begin(), code.end(), token);
         it != std::sregex_iterator(); ++it) {
        const std::string word = it->str();
        if (word == "{") {
            std::string whole;
            bool shared = true;
            for (const Scope& scope : scopes) {
                shared = shared && scope.shared;
                whole += scope.name + "::";
            }
            if (!kind.empty() && kind != "namespace" && named && shared)
                found.push_back(whole + name);
            // What is neither a namespace nor a type is a body: nothing in it is shared.
            scopes.push_back({name, !kind.empty() && named});
            forget();
        } else if (word == "}") {
            if (!scopes.empty())
                scopes.pop_back();
            forget();
        } else if (word == "<" || word == ">") {
            angles += word == "<" ? 1 : -1;
        } else if (word == ";" || word == "=" || word == "(" || word == ")") {
            forget();
        } else if (angles > 0) {
            continue;  // "template <class Value>" defines no type.
        } else if (opens_scope(word)) {
            kind = word;
            named = false;
        } else if (!kind.empty() && !named) {
            name = word;
            named = true;
        }
    }
    return found;
}

}  // namespace

TEST_CASE("no two files define a type of the same name in the same layer",
          "[structure][property]") {
    std::map<std::string, std::vector<std::string>> files_of_type;
    for (const SourceFile& file : files_under("engine"))
        if (file.path.ends_with(".h") || file.path.ends_with(".cpp"))
            for (const std::string& type : types_in(file.text))
                files_of_type[type].push_back(file.path);
    CHECK(files_of_type.size() > 100);
    CHECK(files_of_type.contains("backrow::plan::Tradeoff"));
    CHECK(files_of_type.contains("backrow::Point2"));
    CHECK(files_of_type.contains("backrow::optics::Grade"));
    for (const auto& [type, files] : files_of_type) {
        CAPTURE(type, files);
        CHECK(files.size() == 1);
    }
}

TEST_CASE("types are found wherever they are shared, and only there", "[structure][property]") {
    const auto types = types_in(R"code(
#pragma once
#define BRACE {
namespace backrow::plan {
struct Later;                       // struct Commented {
class Row final : public Base {
    struct Cell { int value = 0; };
    const char* brace() { struct Local {}; return "struct Quoted {"; }
    friend class Other;
};
enum class Grade : int { crisp, fine };
template <class Value> struct Kept { Value value{}; };
template <class Value> Value twice(const Value& value) { return value + value; }
inline constexpr Row rows[] = {{}, {}};
Row row_of(const struct Later& later) { return {}; }
namespace { struct Private { int x; }; }
struct [[nodiscard]] Last {};
}  // namespace backrow::plan
)code");
    CHECK(types == std::vector<std::string>{"backrow::plan::Row", "backrow::plan::Row::Cell",
                                            "backrow::plan::Grade", "backrow::plan::Kept",
                                            "backrow::plan::Last"});
}
