#include "number_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <string>
#include <system_error>

using namespace backrow;

namespace {

std::vector<double> numbers_in(const std::string& list, const char* option,
                               scene::Range<double> range) {
    std::vector<double> numbers;
    std::size_t start = 0;
    while (start <= list.size()) {
        const std::size_t comma = std::min(list.find(',', start), list.size());
        const std::string word = list.substr(start, comma - start);
        double number = 0;
        const auto read = std::from_chars(word.data(), word.data() + word.size(), number);
        if (read.ec != std::errc{} || read.ptr != word.data() + word.size() ||
            !(number >= range.least && number <= range.greatest))
            throw CLI::ValidationError(option, fmt::format("`{}` is not a number from {:g} to {:g}",
                                                           word, range.least, range.greatest));
        numbers.push_back(number);
        start = comma + 1;
    }
    return numbers;
}

}  // namespace

void add_numbers(CLI::App& verb, const char* option, std::vector<double>& into,
                 scene::Range<double> range, const char* unit, const char* description) {
    verb.add_option_function<std::string>(
            option,
            [&into, option, range](const std::string& list) {
                into = numbers_in(list, option, range);
            },
            description)
        ->type_name(fmt::format("{0},{0},…", unit));
}
