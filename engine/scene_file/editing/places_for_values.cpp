#include "scene_file/editing/places_for_values.h"

#include "scene/set_words.h"
#include "scene_file/editing/names_written.h"
#include "scene_file/toml/toml_file.h"

#include <fmt/format.h>

#include <algorithm>

namespace backrow::scene_file {
namespace {

std::optional<Meant> table_of_person(toml::table& tree, const Override& override) {
    const std::string& who = override.parts[1];
    toml::array* people = tree.get_as<toml::array>("person");
    if (people == nullptr)
        return std::nullopt;
    for (toml::node& person : *people)
        if (toml::table* table = person.as_table(); table != nullptr)
            if (const auto* name = table->get_as<std::string>("name");
                name != nullptr && name->get() == who)
                return Meant{.node = table, .path = {"person"}, .is_person = true};
    return std::nullopt;
}

}  // namespace

std::optional<Meant> meant(toml::table& tree, const Override& override) {
    Meant at{.node = &tree, .path = {}};
    std::size_t depth = 0;
    if (override.parts.size() > 2 && override.parts[0] == "person") {
        if (auto person = table_of_person(tree, override)) {
            at = *person;
            depth = 2;
        } else if (!index_from(override.parts[1]) || stands_in_a_row(tree, override.parts[1])) {
            return std::nullopt;
        }
    }
    for (; depth + 1 < override.parts.size(); ++depth) {
        const std::string& part = override.parts[depth];
        toml::node* next = nullptr;
        if (toml::table* table = at.node->as_table())
            next = table->get(part);
        else if (toml::array* array = at.node->as_array())
            next = array->get(index_from(part).value_or(array->size()));
        if (next == nullptr)
            return std::nullopt;
        at.node = next;
        if (!index_from(part))
            at.path.push_back(part);
    }
    return at;
}

std::string in_key_form(const std::string& part) {
    const bool is_bare = std::ranges::all_of(part, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '_' || c == '-';
    });
    return is_bare ? part : scene::toml_string(part);
}

std::optional<Stretch> key_and_value(std::string_view text, const toml::table& table,
                                     std::string_view key) {
    const auto found = table.find(key);
    if (found == table.end())
        return std::nullopt;
    return Stretch{offset_of(text, found->first.source().begin),
                   stretch_of(text, found->second).end};
}

std::optional<Stretch> last_of(std::string_view text, const toml::table& table) {
    std::optional<Stretch> last;
    for (const auto& [key, value] : table)
        if (!(value.is_table() && !value.as_table()->is_inline()) && !value.is_array_of_tables()) {
            const auto given = key_and_value(text, table, key.str());
            if (!last || given->begin > last->begin)
                last = given;
        }
    return last;
}

bool begins_its_line(std::string_view text, std::size_t offset) {
    const std::size_t line = line_round(text, offset).begin;
    return text.find_first_not_of(" \t", line) >= offset;
}

std::size_t width_in_line(std::string_view text, std::size_t key_begin, std::string_view new_key) {
    const std::size_t own = new_key.size() + 1;
    return begins_its_line(text, key_begin) ? std::max(own, text.find('=', key_begin) - key_begin)
                                            : own;
}

std::string line_with(std::string_view text, std::size_t key_begin, std::string_view new_key,
                      std::string_view value) {
    return fmt::format("{:<{}}= {}", new_key, width_in_line(text, key_begin, new_key), value);
}

}  // namespace backrow::scene_file
