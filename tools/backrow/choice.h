#pragma once

// An option that takes one of a few words and nothing else, least of all the number of an
// enumerator.

#include <CLI/CLI.hpp>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

template <class Value> using Choices = std::vector<std::pair<std::string, Value>>;

/// Declares it. into keeps its value, one of the choices, where the option is not given.
template <class Value>
void add_choice(CLI::App& verb, const std::string& option, Value& into,
                const Choices<Value>& choices, const std::string& description) {
    std::vector<std::string> words;
    std::string default_word;
    for (const auto& [word, value] : choices) {
        words.push_back(word);
        if (value == into)
            default_word = word;
    }
    const auto choose = [&into, choices](const std::string& chosen) {
        into = std::ranges::find(choices, chosen, &std::pair<std::string, Value>::first)->second;
    };
    CLI::IsMember one_of{words, CLI::ignore_case};
    one_of.description("");  // The words stand in the type's name already.
    verb.add_option_function<std::string>(option, choose, description)
        ->transform(one_of)
        ->type_name(CLI::detail::join(words, "|"))
        ->default_str(default_word);
}
