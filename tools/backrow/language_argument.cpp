#include "language_argument.h"

#include "choice.h"

#include "papers/words/language.h"

void add_language(CLI::App& verb, std::string& language) {
    language = backrow::papers::language_of_environment();
    Choices<std::string> languages;
    for (const char* one : backrow::papers::languages)
        languages.emplace_back(one, one);
    add_choice_of<std::string>(
        verb, "--language", [&language](const std::string& chosen) { language = chosen; },
        languages, "Its language; by default the locale's, if it is one of these");
}
