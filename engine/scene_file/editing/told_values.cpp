#include "scene_file/editing/told_values.h"

#include "scene/set_words.h"
#include "scene_file/toml/toml_file.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <toml++/toml.h>

#include <algorithm>
#include <sstream>
#include <string_view>
#include <vector>

namespace backrow::scene_file {
namespace {

using Told = std::map<std::string, std::string>;

std::string value_text(const toml::node& node) {
    if (const auto* number = node.as_floating_point())
        return scene::toml_number(number->get());
    if (const auto* words = node.as_string())
        return scene::toml_string(words->get());
    if (const toml::array* list = node.as_array()) {
        std::vector<std::string> elements;
        for (const toml::node& element : *list)
            elements.push_back(value_text(element));
        return fmt::format("[{}]", fmt::join(elements, ", "));
    }
    std::ostringstream text;
    node.visit([&](const auto& value) { text << value; });
    return text.str();
}

bool holds_tables(const toml::array& list) {
    return !list.empty() &&
           std::ranges::all_of(list, [](const toml::node& element) { return element.is_table(); });
}

void tell(const toml::table& table, const std::string& before, Told& told);

void tell_list(const toml::array& list, const std::string& key, Told& told) {
    for (std::size_t i = 0; i < list.size(); ++i) {
        const toml::table& table = *list.get(i)->as_table();
        const toml::node* name = key == "person" ? table.get("name") : nullptr;
        const bool is_named = name != nullptr && name->is_string();
        // person_key() ends with a dot where no key follows.
        tell(table,
             is_named ? scene::person_key(name->as_string()->get(), "")
                      : fmt::format("{}.{}.", key, i),
             told);
    }
}

void tell(const toml::table& table, const std::string& before, Told& told) {
    for (const auto& [name, node] : table) {
        const std::string key = before + std::string{name.str()};
        if (const toml::table* inner = node.as_table())
            tell(*inner, key + '.', told);
        else if (const toml::array* list = node.as_array(); list != nullptr && holds_tables(*list))
            tell_list(*list, key, told);
        else
            told[key] = value_text(node);
    }
}

}  // namespace

Checked<Told> told_values(const std::string& text, const std::string& file) {
    const auto tree = parse_toml(text, file);
    if (!tree)
        return tl::unexpected(std::vector{tree.error()});
    Told told;
    tell(*tree, "", told);
    return told;
}

}  // namespace backrow::scene_file
