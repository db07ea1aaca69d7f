#include "spelt_options.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>

using namespace backrow;

namespace {

std::vector<double> numbers_in(const std::string& list, const char* option,
                               scene::Range<double> range, Measure measure) {
    std::vector<double> numbers;
    std::size_t start = 0;
    while (start <= list.size()) {
        const std::size_t comma = std::min(list.find(',', start), list.size());
        const std::string word = list.substr(start, comma - start);
        const auto number = number_from_spelling(word, measure);
        if (!number || !(*number >= range.least && *number <= range.greatest))
            throw CLI::ValidationError(option, fmt::format("`{}` is not a number from {:g} to {:g}",
                                                           word, range.least, range.greatest));
        numbers.push_back(*number);
        start = comma + 1;
    }
    return numbers;
}

}  // namespace

CLI::Validator as_spelt(Measure measure) {
    // What is no number at all is left to the parser, which knows the option's range.
    const auto to_plain = [measure](std::string& word) {
        const auto number = number_from_spelling(word, measure);
        if (number)
            word = fmt::format("{}", *number);
        return number || number.error().empty()
                   ? std::string{}
                   : fmt::format("`{}` may mean two things; {}", word, number.error());
    };
    return CLI::Validator{to_plain, ""};
}

void add_numbers(CLI::App& verb, const char* option, std::vector<double>& into,
                 scene::Range<double> range, Measure measure, const char* unit,
                 const char* description) {
    verb.add_option_function<std::string>(
            option,
            [&into, option, range, measure](const std::string& list) {
                into = numbers_in(list, option, range, measure);
            },
            description)
        ->type_name(fmt::format("{0},{0},…", unit));
}
