#include "scene_file/toml/table_reader.h"

#include "scene_file/toml/near_miss.h"

#include "base/spelt_number.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace backrow::scene_file {
namespace {

std::string wanted(scene::Range<double> range) {
    return fmt::format("write a number from {} to {}", range.least, range.greatest);
}

}  // namespace

std::string_view kind_of(const toml::node& node) {
    switch (node.type()) {
    case toml::node_type::string:
        return "text";
    case toml::node_type::integer:
    case toml::node_type::floating_point:
        return "a number";
    case toml::node_type::boolean:
        return "true or false";
    case toml::node_type::array:
        return "a list";
    case toml::node_type::table:
        return "a table";
    default:
        return "a date or a time";
    }
}

const toml::node* TableReader::find(std::string_view key) {
    if (std::ranges::find(known_, key) == known_.end())
        known_.push_back(key);
    return table_->get(key);
}

Place TableReader::place_at(std::string_view key) const {
    const toml::node* node = table_->get(key);
    return node == nullptr ? place() : place_of(*node);
}

bool TableReader::read(const NumberKey& rule, double& into) {
    const toml::node* node = find(rule.key);
    return node != nullptr && number(rule.key, rule.range, *node, into);
}

bool TableReader::number(std::string_view key, scene::Range<double> range, const toml::node& node,
                         double& into) {
    std::optional<double> value;
    if (node.is_number())
        value = node.value<double>();
    if (const auto* text = node.as_string(); text != nullptr && !is_plain_number(text->get())) {
        const auto spelt = number_from_spelling(text->get(), measure_of_key(key));
        if (!spelt && !spelt.error().empty()) {
            complain(place_of(node),
                     fmt::format("`{}` may mean two things", shortened(text->get())),
                     spelt.error());
            return false;
        }
        if (spelt)
            value = *spelt;
    }
    if (!value) {
        complain(place_of(node), fmt::format("`{}` is {}, not a number", key, kind_of(node)),
                 wanted(range) + (node.is_string() ? ", without quotation marks" : ""));
        return false;
    }
    value = as_meant(*value, measure_of_key(key));
    const bool inside = *value >= range.least && *value <= range.greatest;
    if (!inside) {
        complain(place_of(node), fmt::format("`{}` cannot be {}", key, *value), wanted(range));
        return false;
    }
    into = *value;
    return true;
}

bool TableReader::read(const WholeKey& rule, int& into) {
    const toml::node* node = find(rule.key);
    double value = 0;
    if (node == nullptr || !number(rule.key,
                                   scene::Range<double>{static_cast<double>(rule.range.least),
                                                        static_cast<double>(rule.range.greatest)},
                                   *node, value))
        return false;
    if (value != std::floor(value)) {
        complain(place_of(*node), fmt::format("`{}` cannot be {}", rule.key, value),
                 "write a whole number");
        return false;
    }
    into = static_cast<int>(value);
    return true;
}

bool TableReader::numbers(std::string_view key, std::string_view shape, scene::Range<double> range,
                          const toml::node& node, double* into, std::size_t count) {
    const toml::array* list = node.as_array();
    if (list == nullptr || list->size() != count) {
        const std::string found = list == nullptr ? std::string{kind_of(node)}
                                                  : fmt::format("a list of {}", list->size());
        complain(place_of(node), fmt::format("`{}` is {}", key, found),
                 fmt::format("write {} numbers, {}", count, shape));
        return false;
    }
    std::vector<double> values(count);
    bool all_good = true;
    for (std::size_t i = 0; i < count; ++i)
        all_good &= number(key, range, *list->get(i), values[i]);
    if (all_good)
        std::ranges::copy(values, into);
    return all_good;
}

bool TableReader::read(std::string_view flag_key, bool& into) {
    const toml::node* node = find(flag_key);
    if (node == nullptr)
        return false;
    if (!node->is_boolean()) {
        complain(place_of(*node),
                 fmt::format("`{}` is {}, not true or false", flag_key, kind_of(*node)),
                 "write true or false, without quotation marks");
        return false;
    }
    into = node->as_boolean()->get();
    return true;
}

bool TableReader::read(std::string_view text_key, std::string& into) {
    const toml::node* node = find(text_key);
    if (node == nullptr)
        return false;
    if (!node->is_string()) {
        complain(place_of(*node), fmt::format("`{}` is {}, not text", text_key, kind_of(*node)),
                 "write it in quotation marks");
        return false;
    }
    into = node->as_string()->get();
    return true;
}

std::optional<std::size_t> TableReader::word_among(std::string_view key,
                                                   const std::vector<std::string_view>& words) {
    std::string word;
    if (!read(key, word))
        return std::nullopt;
    const auto found = std::ranges::find(words, word);
    if (found != words.end())
        return static_cast<std::size_t>(found - words.begin());

    const std::string nearest = nearest_word(word, words);
    const std::string guess =
        nearest.empty() ? std::string{} : fmt::format("did you mean `{}`? ", nearest);
    complain(place_at(key), fmt::format("`{}` is no {} this program knows", shortened(word), key),
             fmt::format("{}{} is one of {}", guess, key, fmt::join(words, ", ")));
    return std::nullopt;
}

const toml::array* TableReader::list(std::string_view key) {
    const toml::node* node = find(key);
    if (node == nullptr)
        return nullptr;
    if (!node->is_array())
        complain(place_of(*node), fmt::format("`{}` is {}, not a list", key, kind_of(*node)),
                 "write it in square brackets");
    return node->as_array();
}

std::optional<TableReader> TableReader::table(std::string_view key) {
    const toml::node* node = find(key);
    if (node == nullptr)
        return std::nullopt;
    const std::string title = fmt::format("[{}]", key);
    if (!node->is_table()) {
        complain(place_of(*node), fmt::format("`{}` is {}, not a table", key, kind_of(*node)),
                 fmt::format("write {} once, with single brackets, and its keys below it", title));
        return std::nullopt;
    }
    return TableReader{*node->as_table(), title, *findings_};
}

std::vector<TableReader> TableReader::tables(std::string_view key) {
    const toml::node* node = find(key);
    if (node == nullptr)
        return {};
    const std::string title =
        title_.empty() ? fmt::format("[[{}]]", key)
                       : fmt::format("[[{}.{}]]", title_.substr(1, title_.size() - 2), key);
    const std::string mend = fmt::format("write {} with double brackets, once for each", title);
    if (!node->is_array()) {
        complain(place_of(*node),
                 fmt::format("`{}` is {}, not a list of tables", key, kind_of(*node)), mend);
        return {};
    }
    std::vector<TableReader> readers;
    for (const toml::node& entry : *node->as_array()) {
        if (entry.is_table())
            readers.emplace_back(*entry.as_table(), title, *findings_);
        else
            complain(place_of(entry),
                     fmt::format("`{}` holds {}, not a table", key, kind_of(entry)), mend);
    }
    return readers;
}

void TableReader::refuse_unknown_keys() {
    const std::string where = title_.empty() ? "the scene" : title_;
    for (const auto& [key, value] : *table_) {
        if (std::ranges::find(known_, key.str()) != known_.end())
            continue;
        complain(place_of(key), fmt::format("unknown key `{}`", shortened(key.str())),
                 suggestion(key.str(), known_, fmt::format("{} knows", where)));
    }
}

}  // namespace backrow::scene_file
