#pragma once

// An option that takes one of a few words and nothing else, least of all the number of an
// enumerator.

#include <CLI/CLI.hpp>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

template <class Value>
using Choices = std::vector<std::pair<std::string, Value>>;

/// Declares it; choose is called with the chosen value.
template <class Value, class Choose>
CLI::Option* add_choice_of(CLI::App& verb, const std::string& option, const Choose& choose,
                           const Choices<Value>& choices, const std::string& description) {
    std::vector<std::string> words;
    for (const auto& [word, value] : choices)
        words.push_back(word);
    const auto choose_word = [choose, choices](const std::string& chosen) {
        choose(std::ranges::find(choices, chosen, &std::pair<std::string, Value>::first)->second);
    };
    CLI::IsMember one_of{words, CLI::ignore_case};
    one_of.description("");  // The words stand in the type's name already.
    return verb.add_option_function<std::string>(option, choose_word, description)
        ->transform(one_of)
        ->type_name(CLI::detail::join(words, "|"));
}

/// Declares it. into keeps its value, one of the choices, where the option is not given.
template <class Value>
void add_choice(CLI::App& verb, const std::string& option, Value& into,
                const Choices<Value>& choices, const std::string& description) {
    add_choice_of(
        verb, option, [&into](Value value) { into = value; }, choices, description)
        ->default_str(
            std::ranges::find(choices, into, &std::pair<std::string, Value>::second)->first);
}

/// Declares it. into stays empty where the option is not given.
template <class Value>
void add_choice(CLI::App& verb, const std::string& option, std::optional<Value>& into,
                const Choices<Value>& choices, const std::string& description) {
    add_choice_of(
        verb, option, [&into](Value value) { into = value; }, choices, description);
}
