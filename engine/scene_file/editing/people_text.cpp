#include "scene_file/editing/people_text.h"

#include "scene_file/editing/list_text.h"
#include "scene_file/editing/places_for_values.h"
#include "scene_file/toml/toml_file.h"
#include "scene_file/toml/toml_places.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstddef>
#include <functional>
#include <string_view>

namespace backrow::scene_file {
namespace {

/// A [[table]] from its head to its last key, and a blank line before it.
void take_table(std::string& text, const toml::table& table) {
    const std::size_t head = offset_of(text, table.source().begin);
    const auto last = last_of(text, table);
    Stretch lines{line_round(text, head).begin, line_round(text, last ? last->end - 1 : head).end};
    while (lines.begin > 0) {
        const Stretch before = line_round(text, lines.begin - 1);
        if (text.find_first_not_of(" \t\r\n", before.begin) < lines.begin)
            break;
        lines.begin = before.begin;
    }
    text.erase(lines.begin, lines.end - lines.begin);
}

/// A key with whatever it holds; of a table, that is one list.
void take_all(std::string& text, const toml::table& table, std::string_view key) {
    if (const toml::table* inner = table.get_as<toml::table>(key);
        inner != nullptr && !inner->is_inline())
        return take_all(text, *inner, inner->begin()->first.str());
    const toml::array* list = table.get_as<toml::array>(key);
    const toml::table* first =
        list == nullptr || list->empty() ? nullptr : list->get(0)->as_table();
    if (first == nullptr || first->is_inline())
        return take_key(text, table, key);
    for (std::size_t i = list->size(); i-- > 0;)
        take_table(text, *list->get(i)->as_table());
}

void do_step(std::string& text, const Step& step) {
    if (const toml::array* list = step.in->as_array()) {
        const toml::node& element = *list->get(step.index);
        const Stretch place = stretch_of(text, element);
        if (!step.value_text.empty())
            text.replace(place.begin, place.end - place.begin, step.value_text);
        else if (element.is_table() && !element.as_table()->is_inline())
            take_table(text, *element.as_table());
        else
            take_from_list(text, *list, step.index);
        return;
    }
    const toml::table& table = *step.in->as_table();
    const toml::node& present = *table.get(step.key);
    if (step.value_text.empty())
        return take_all(text, table, step.key);
    const auto now = parse_toml("value = " + step.value_text, "");
    const toml::array* before = present.as_array();
    const toml::array* list = now->get_as<toml::array>("value");
    const auto has_names = [](const toml::array* names) {
        return names != nullptr && !names->empty() && names->is_homogeneous<std::string>();
    };
    if (has_names(before) && has_names(list))
        return change_list(text, *before, *list);
    const Stretch value = stretch_of(text, present);
    const Stretch whole = *key_and_value(text, table, step.key);
    if (step.new_key.empty())
        text.replace(value.begin, value.end - value.begin, step.value_text);
    else
        text.replace(whole.begin, whole.end - whole.begin,
                     line_with(text, whole.begin, step.new_key, step.value_text));
}

std::size_t begin_of(std::string_view text, const Step& step) {
    if (const toml::array* list = step.in->as_array())
        return offset_of(text, list->get(step.index)->source().begin);
    return offset_of(text, step.in->as_table()->find(step.key)->second.source().begin);
}

const toml::table* last_table(const toml::array* tables) {
    return tables == nullptr || tables->empty() ? nullptr
                                                : tables->get(tables->size() - 1)->as_table();
}

/// One more table of a list in brackets.
void add_inline(std::string& text, const toml::table& last, const KeysAndValues& said) {
    std::vector<std::string> parts;
    for (const auto& [key, value] : said)
        parts.push_back(fmt::format("{} = {}", key, value));
    text.insert(stretch_of(text, last).end, fmt::format(", {{ {} }}", fmt::join(parts, ", ")));
}

void add_lines(std::string& text, const std::string& lines) {
    if (!text.empty() && text.back() != '\n')
        text += '\n';
    text += '\n' + lines;
}

}  // namespace

void do_in_text(std::string& text, std::vector<Step> steps) {
    std::erase_if(steps, [](const Step& step) {  // A row that does not say yet who stands in it.
        return step.in->is_table() && !step.in->as_table()->contains(step.key);
    });
    // From the back of the text forward, so that what is still to come keeps its place.
    std::ranges::sort(steps, std::ranges::greater{},
                      [&](const Step& step) { return begin_of(text, step); });
    for (const Step& step : steps)
        do_step(text, step);
}

void add_person(std::string& text, const toml::table& tree, const KeysAndValues& said) {
    const toml::table* last = last_table(tree.get_as<toml::array>("person"));
    if (last != nullptr && last->is_inline())
        return add_inline(text, *last, said);
    std::string lines = "[[person]]\n";
    for (const auto& [key, value] : said)
        lines += fmt::format("{} = {}\n", key, value);
    add_lines(text, lines);
}

void add_to_list(std::string& text, const toml::array* list, std::string_view name,
                 std::string_view key, const std::string& value) {
    const toml::table* last = last_table(list);
    if (last == nullptr)
        return add_lines(text, fmt::format("[[{}]]\n{} = {}\n", name, key, value));
    if (last->is_inline())
        return add_inline(text, *last, {{std::string{key}, value}});
    const auto last_key = last_of(text, *last);
    const std::size_t end = last_key ? last_key->end - 1 : offset_of(text, last->source().begin);
    const std::string line = last_key ? line_with(text, last_key->begin, key, value)
                                      : fmt::format("{} = {}", key, value);
    const std::size_t after = line_round(text, end).end;
    const bool ends = after > 0 && text[after - 1] == '\n';
    text.insert(after, fmt::format("{}\n[[{}]]\n{}\n", ends ? "" : "\n", name, line));
}

}  // namespace backrow::scene_file
