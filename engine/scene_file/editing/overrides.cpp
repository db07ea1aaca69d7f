#include "scene_file/editing/overrides.h"

#include "scene/set_words.h"
#include "scene_file/editing/override.h"
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

std::optional<std::string_view> name_in(const toml::node& person) {
    const toml::table* table = person.as_table();
    const auto* name = table == nullptr ? nullptr : table->get_as<std::string>("name");
    if (name == nullptr)
        return std::nullopt;
    return name->get();
}

std::vector<std::string_view> names_in_rows(const toml::table& scene) {
    std::vector<std::string_view> names;
    if (const toml::array* rows = scene.get_as<toml::array>("row"))
        for (const toml::node& row : *rows)
            if (const toml::table* table = row.as_table())
                if (const toml::array* people = table->get_as<toml::array>("people"))
                    for (const toml::node& name : *people)
                        if (const auto* text = name.as_string())
                            names.push_back(text->get());
    return names;
}

// The [[person]] meant, by name or else by number; one is made for somebody who is only in a row.
tl::expected<toml::node*, Problem> person_meant(toml::table& scene, const Override& override) {
    const std::string& who = override.parts[1];
    if (!scene.contains("person"))
        scene.insert_or_assign(key_from(override, "person"), toml::array{});
    toml::array* people = scene.get_as<toml::array>("person");
    if (people == nullptr)
        return tl::unexpected(
            override.problem("`person` is not a list of tables", "write [[person]] in the file"));
    std::vector<std::string_view> known;
    for (toml::node& person : *people)
        if (const auto name = name_in(person)) {
            if (*name == who)
                return &person;
            known.push_back(*name);
        }
    const std::vector<std::string_view> in_rows = names_in_rows(scene);
    if (stands_in_a_row(scene, who)) {
        people->push_back(table_from(override, fmt::format("name = {}", scene::toml_string(who))));
        return people->get(people->size() - 1);
    }
    if (const auto index = index_from(who); index && *index < people->size())
        return people->get(*index);
    for (const std::string_view name : in_rows)
        if (std::ranges::find(known, name) == known.end())
            known.push_back(name);
    return tl::unexpected(
        override.problem(fmt::format("nobody in the picture is called `{}`", shortened(who)),
                         suggestion(who, known, "in the picture are")));
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

Trouble apply(toml::table& scene, Override& override) {
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

void apply_overrides(toml::table& scene, const std::vector<std::string>& overrides,
                     Findings& findings) {
    for (const std::string& text : overrides) {
        auto taken = take_apart(text);
        if (!taken) {
            findings.add_all({taken.error()});
            continue;
        }
        if (const Trouble trouble = apply(scene, *taken))
            findings.add_all({*trouble});
    }
}

bool stands_in_a_row(const toml::table& scene, std::string_view name) {
    const std::vector<std::string_view> names = names_in_rows(scene);
    return std::ranges::find(names, name) != names.end();
}

}  // namespace backrow::scene_file
