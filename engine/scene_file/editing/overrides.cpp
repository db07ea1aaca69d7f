#include "scene_file/editing/overrides.h"

#include "scene/set_words.h"
#include "scene_file/editing/names_written.h"
#include "scene_file/editing/override.h"
#include "scene_file/editing/thing_steps.h"
#include "scene_file/toml/near_miss.h"
#include "scene_file/toml/table_reader.h"
#include "scene_file/toml/toml_file.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace backrow::scene_file {
namespace {

using Trouble = std::optional<Problem>;

// A key or table that remembers which override it came from.
toml::key key_from(const Override& override, std::string_view name) {
    return toml::key{name, override.value.source()};
}
toml::table table_from(const Override& override, std::string_view line) {
    auto parsed = parse_toml(line, override.file);
    return parsed ? std::move(*parsed) : toml::table{};
}

// The [[person]] meant, by name or else by number; one is made for somebody who is only in a row.
tl::expected<toml::node*, Problem> person_meant(toml::table& scene, const Override& override) {
    if (!scene.contains("person"))
        scene.insert_or_assign(key_from(override, "person"), toml::array{});
    toml::array* people = scene.get_as<toml::array>("person");
    if (people == nullptr)
        return tl::unexpected(
            override.problem("`person` is not a list of tables", "write [[person]] in the file"));
    const auto name = name_meant(scene, override);
    if (!name) {
        if (const auto index = index_from(override.parts[1]); index && *index < people->size())
            return people->get(*index);  // Of no name, which is another's complaint.
        return tl::unexpected(name.error());
    }
    for (toml::node& person : *people)
        if (person.is_table() && says(person.as_table()->get("name"), *name))
            return &person;
    people->push_back(table_from(override, fmt::format("name = {}", scene::toml_string(*name))));
    return people->get(people->size() - 1);
}

// One step down the tree towards the value; tables that are missing are made.
tl::expected<toml::node*, Problem> step_down(toml::node& from, const Override& override,
                                             std::size_t depth) {
    const std::string& part = override.parts[depth];
    if (toml::table* table = from.as_table()) {
        if (!table->contains(part))
            table->insert_or_assign(key_from(override, part), table_from(override, ""));
        return table->get(part);
    }
    const std::string& list = override.parts[depth == 0 ? 0 : depth - 1];
    if (toml::array* array = from.as_array()) {
        const auto index = index_from(part);
        if (index && *index < array->size())
            return array->get(*index);
        return tl::unexpected(override.problem(
            fmt::format("there is no `{}` number {}", shortened(list), shortened(part)),
            fmt::format("this scene has {}, counted from 0", array->size())));
    }
    return tl::unexpected(
        override.problem(fmt::format("`{}` is {} and holds no `{}`", shortened(list), kind_of(from),
                                     shortened(part)),
                         "write the key without that part"));
}

void displace_rivals(toml::table& table, const Override& override) {
    for (const std::string_view rival : rivals_of(override))
        if (const toml::node* given = table.get(rival);
            given != nullptr && place_of(*given).line != 0)
            table.erase(rival);
}

Trouble put(toml::node& into, Override& override) {
    const std::string& last = override.parts.back();
    Trouble trouble;
    if (toml::table* table = into.as_table()) {
        displace_rivals(*table, override);
        override.value.get("value")->visit([&](auto& value) {
            table->insert_or_assign(key_from(override, last), std::move(value));
        });
        return trouble;
    }
    // An element of a list, as in row.0.people.1: it must be there to be replaced.
    auto element = step_down(into, override, override.parts.size() - 1);
    if (!element)
        return element.error();
    toml::array& array = *into.as_array();
    const auto index = static_cast<std::ptrdiff_t>(*index_from(last));
    override.value.get("value")->visit(
        [&](auto& value) { array.replace(array.cbegin() + index, std::move(value)); });
    return trouble;
}

Trouble add_table(toml::table& scene, const Override& override, std::string_view list,
                  std::string_view line) {
    if (!scene.contains(list))
        scene.insert_or_assign(key_from(override, list), toml::array{});
    toml::array* tables = scene.get_as<toml::array>(list);
    if (tables == nullptr)
        return override.problem(fmt::format("`{}` is not a list of tables", list),
                                fmt::format("write [[{}]] in the file", list));
    tables->push_back(table_from(override, line));
    return std::nullopt;
}

Trouble apply_to_people(toml::table& scene, const Override& override) {
    if (adds_person(scene, override))
        return add_table(scene, override, "person", fmt::format("name = {}", override.value_text));
    if (adds_row(scene, override))
        return add_table(scene, override, "row", fmt::format("people = {}", override.value_text));
    const auto steps = steps_of(scene, override);
    if (!steps)
        return steps.error();
    do_in_tree(*steps, override.file);
    return std::nullopt;
}

/// A list in a table may lack both.
Trouble apply_new_thing(toml::table& scene, const Override& override) {
    toml::table* owner = &scene;
    if (override.parts.size() > 3) {
        const std::string& name = override.parts.front();
        if (!scene.contains(name))
            scene.insert_or_assign(key_from(override, name), table_from(override, ""));
        owner = scene.get_as<toml::table>(name);
    }
    return add_table(*owner, override, override.parts[override.parts.size() - 3],
                     fmt::format("{} = {}", override.parts.back(), override.value_text));
}

Trouble apply(toml::table& scene, Override& override) {
    if (adds_thing(scene, override))
        return apply_new_thing(scene, override);
    if (takes_thing(override)) {
        const auto steps = steps_taking_thing(scene, override);
        if (!steps)
            return steps.error();
        do_in_tree(*steps, override.file);
        return std::nullopt;
    }
    if (changes_people(override))
        return apply_to_people(scene, override);
    toml::node* at = &scene;
    std::size_t depth = 0;
    if (override.parts.size() > 2 && override.parts[0] == "person") {
        const auto person = person_meant(scene, override);
        if (!person)
            return person.error();
        at = *person;
        depth = 2;
    }
    for (; depth + 1 < override.parts.size(); ++depth) {
        const auto next = step_down(*at, override, depth);
        if (!next)
            return next.error();
        at = *next;
    }
    return put(*at, override);
}

}  // namespace

void apply_override(toml::table& scene, const std::string& text, Findings& findings) {
    auto taken = take_apart(text);
    if (!taken)
        findings.add_all({taken.error()});
    else if (const Trouble trouble = apply(scene, *taken))
        findings.add_all({*trouble});
}

void apply_overrides(toml::table& scene, const std::vector<std::string>& overrides,
                     Findings& findings) {
    const std::vector<std::size_t> empty = empty_rows(scene);
    for (const std::string& text : overrides)
        apply_override(scene, text, findings);
    do_in_tree(steps_without_emptied_rows(scene, empty), findings.file());
}

void do_in_tree(const std::vector<Step>& steps, const std::string& file) {
    // From the last on, so that what is left in a list keeps its number.
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
        toml::table* table = step->in->as_table();
        toml::array* list = step->in->as_array();
        const auto at = static_cast<std::ptrdiff_t>(step->index);
        if (step->value_text.empty()) {
            if (table != nullptr)
                table->erase(step->key);
            else
                list->erase(list->cbegin() + at);
            continue;
        }
        auto value = parse_toml(fmt::format("value = {}", step->value_text), file);
        value->get("value")->visit([&](auto& what) {
            if (table == nullptr) {
                list->replace(list->cbegin() + at, std::move(what));
                return;
            }
            if (!step->new_key.empty())
                table->erase(step->key);
            table->insert_or_assign(
                toml::key{step->new_key.empty() ? step->key : step->new_key, value->source()},
                std::move(what));
        });
    }
}

}  // namespace backrow::scene_file
