#include "papers/words/language.h"

#include "base/assets.h"

#include <algorithm>
#include <cstdlib>

namespace backrow::papers {
namespace {

std::string_view translated(const Catalogue& catalogue, std::string_view sentence) {
    const auto found = catalogue.find(sentence);
    return found == catalogue.end() ? sentence : std::string_view{found->second};
}

bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

}  // namespace

Made<Language> Language::of(const std::string& code) {
    if (code == languages.front())
        return Language{};
    const auto path = find_asset("words/" + code + ".mo");
    if (!path)
        return tl::make_unexpected(path.error());
    const auto bytes = read_text(*path);
    if (!bytes)
        return tl::make_unexpected(bytes.error());
    auto catalogue = read_catalogue(*bytes, *path);
    if (!catalogue)
        return tl::make_unexpected(catalogue.error());
    return Language{std::move(*catalogue)};
}

std::string Language::say(std::string_view sentence, const std::vector<Part>& parts) const {
    const std::string_view pattern = translated(catalogue_, sentence);
    std::string said;
    for (std::size_t at = 0; at < pattern.size();) {
        const std::size_t end = pattern[at] == '{' ? pattern.find('}', at) : pattern.npos;
        const auto part =
            end == pattern.npos
                ? parts.end()
                : std::ranges::find(parts, pattern.substr(at + 1, end - at - 1), &Part::first);
        if (part == parts.end()) {
            said += pattern[at++];
            continue;
        }
        said += part->second;
        at = end + 1;
    }
    return said;
}

std::string Language::number(std::string_view digits) const {
    const std::string sign = say(".");
    std::string number;
    for (std::size_t i = 0; i < digits.size(); ++i) {
        const bool parts_digits = digits[i] == '.' && i > 0 && i + 1 < digits.size() &&
                                  is_digit(digits[i - 1]) && is_digit(digits[i + 1]);
        number += parts_digits ? sign : digits[i] == ' ' ? "\u00a0" : std::string{digits[i]};
    }
    return number;
}

std::string language_asked_for(const char* (*value_of)(const char*)) {
    for (const char* variable : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
        const char* value = value_of(variable);
        if (value == nullptr || *value == '\0')
            continue;
        // "de_AT.UTF-8" is German.
        const std::string_view said{value};
        const std::string_view code = said.substr(0, said.find_first_of("_.@"));
        const auto found = std::ranges::find(
            languages, code, [](const char* language) { return std::string_view{language}; });
        return found == languages.end() ? languages.front() : *found;
    }
    return languages.front();
}

std::string language_of_environment() {
    return language_asked_for(
        [](const char* variable) -> const char* { return std::getenv(variable); });
}

}  // namespace backrow::papers
