#include "scene_file/editing/names_written.h"

#include "scene_file/toml/near_miss.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace backrow::scene_file {

const std::string* text_of(const toml::node* node) {
    const auto* text = node == nullptr ? nullptr : node->as_string();
    return text == nullptr ? nullptr : &text->get();
}

bool says(const toml::node* node, std::string_view name) {
    const std::string* text = text_of(node);
    return text != nullptr && *text == name;
}

bool holds(const std::vector<std::string_view>& names, std::string_view name) {
    return std::ranges::find(names, name) != names.end();
}

bool stands_in_a_row(const toml::table& scene, std::string_view name) {
    return holds(names_in_rows(scene), name);
}

std::vector<std::string_view> names_in_tables(const toml::table& scene) {
    std::vector<std::string_view> names;
    if (const toml::array* people = scene.get_as<toml::array>("person"))
        for (const toml::node& person : *people)
            if (const toml::table* table = person.as_table())
                if (const std::string* name = text_of(table->get("name")))
                    names.push_back(*name);
    return names;
}

std::vector<std::string_view> names_in_rows(const toml::table& scene) {
    std::vector<std::string_view> names;
    if (const toml::array* rows = scene.get_as<toml::array>("row"))
        for (const toml::node& row : *rows)
            if (const toml::table* table = row.as_table())
                if (const toml::array* people = table->get_as<toml::array>("people"))
                    for (const toml::node& name : *people)
                        if (const std::string* text = text_of(&name))
                            names.push_back(*text);
    return names;
}

tl::expected<std::string, Problem> name_meant(const toml::table& scene, const Override& override) {
    const std::string& who = override.parts[1];
    std::vector<std::string_view> known = names_in_tables(scene);
    for (const std::string_view name : names_in_rows(scene))
        if (!holds(known, name))
            known.push_back(name);
    if (holds(known, who))
        return who;
    const auto index = index_from(who);
    if (const toml::array* people = scene.get_as<toml::array>("person");
        people != nullptr && index && *index < people->size())
        if (const toml::table* person = people->get(*index)->as_table())
            if (const std::string* name = text_of(person->get("name")))
                return *name;
    return tl::unexpected(
        override.problem(fmt::format("nobody in the picture is called `{}`", shortened(who)),
                         suggestion(who, known, "in the picture are")));
}

}  // namespace backrow::scene_file
