#pragma once

// The language of a paper. Every sentence stands in the source in English and goes through say();
// names are data and go in as they are.

#include "papers/words/catalogue.h"

#include "base/problem.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace backrow::papers {

/// Those that are complete, as --language takes them; the first is that of the source.
inline constexpr std::array<const char*, 2> languages{"en", "de"};

/// What stands for a placeholder.
using Part = std::pair<std::string_view, std::string>;

class Language {
public:
    /// That of the source.
    Language() = default;
    explicit Language(Catalogue catalogue) : catalogue_{std::move(catalogue)} {}

    /// One of `languages`.
    [[nodiscard]] static Made<Language> of(const std::string& code);

    /// The sentence in this language, each {name} in it replaced; in English where the catalogue
    /// lacks it.
    [[nodiscard]] std::string say(std::string_view sentence,
                                  const std::vector<Part>& parts = {}) const;

    /// A number, with its unit or without, with this language's sign between whole and fraction:
    /// "f/2.8", "4.58 m". No line breaks within it.
    [[nodiscard]] std::string number(std::string_view digits) const;

private:
    Catalogue catalogue_;
};

/// The first of `languages` that the environment asks for, by what LC_ALL, LC_MESSAGES and LANG
/// say, in this order of rank; the first of them all where it asks for none.
///
/// value_of  an environment variable's, or null
[[nodiscard]] std::string language_asked_for(const char* (*value_of)(const char*));
/// The same of this process.
[[nodiscard]] std::string language_of_environment();

}  // namespace backrow::papers
