#include "scene/overrides.h"

#include "scene/near_miss.h"
#include "scene/table_reader.h"
#include "scene/toml_file.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <set>

namespace backrow::scene {
namespace {

using Trouble = std::optional<Problem>;

/// One override, taken apart.
struct Override {
    std::string file;  ///< What places name: "--set camera.f_number=2.8".
    std::vector<std::string> parts;
    toml::table value;  ///< The value under the key "value".

    [[nodiscard]] Problem problem(std::string what, std::string mend) const {
        return {{file, 0, 0}, std::move(what), std::move(mend)};
    }
};

std::string in_toml_quotes(std::string_view text) {
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            quoted += '\\';
        quoted += c;
    }
    return quoted + '"';
}

std::vector<std::string> split_at_dots(std::string_view key) {
    std::vector<std::string> parts(1);
    bool quoted = false;
    for (const char c : key) {
        if (c == '"')
            quoted = !quoted;
        else if (c == '.' && !quoted)
            parts.emplace_back();
        else
            parts.back() += c;
    }
    return parts;
}

// Where the key ends: the first = outside of quotation marks.
std::size_t end_of_key(std::string_view text) {
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '"')
            quoted = !quoted;
        else if (text[i] == '=' && !quoted)
            return i;
    }
    return text.npos;
}

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == text.npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

tl::expected<Override, Problem> take_apart(const std::string& text) {
    Override taken{.file = fmt::format("{}{}", override_prefix, text), .parts = {}, .value = {}};
    const std::size_t equals = end_of_key(text);
    const std::string_view whole{text};
    const std::string_view key = trimmed(whole.substr(0, std::min(equals, whole.size())));
    const std::string_view value =
        equals == text.npos ? std::string_view{} : trimmed(whole.substr(equals + 1));
    if (key.empty() || value.empty())
        return tl::unexpected(taken.problem("an override needs a key and a value",
                                            "write key=value, as in camera.f_number=2.8"));
    if (text.find_first_of("\n\r") != text.npos)
        return tl::unexpected(
            taken.problem("an override is one line", "give each value its own --set"));

    taken.parts = split_at_dots(key);
    if (taken.parts.size() > 8 || std::ranges::count(taken.parts, std::string{}) > 0)
        return tl::unexpected(
            taken.problem(fmt::format("`{}` is no key of a scene", shortened(key)),
                          "write the table and the key, as in camera.f_number"));

    auto parsed = parse_toml(fmt::format("value = {}", value), taken.file);
    if (!parsed)  // a bare word
        parsed = parse_toml(fmt::format("value = {}", in_toml_quotes(value)), taken.file);
    if (!parsed)
        return tl::unexpected(parsed.error());
    taken.value = std::move(*parsed);
    return taken;
}

// A key or table that remembers which override it came from.
toml::key key_from(const Override& override, std::string_view name) {
    return toml::key{name, override.value.source()};
}
toml::table table_from(const Override& override, std::string_view line) {
    auto parsed = parse_toml(line, override.file);
    return parsed ? std::move(*parsed) : toml::table{};
}

std::optional<std::size_t> index_from(std::string_view text) {
    std::size_t index = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), index);
    if (error != std::errc{} || end != text.data() + text.size())
        return std::nullopt;
    return index;
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
    if (std::ranges::find(in_rows, who) != in_rows.end()) {
        people->push_back(table_from(override, fmt::format("name = {}", in_toml_quotes(who))));
        return people->get(people->size() - 1);
    }
    if (const auto index = index_from(who); index && *index < people->size())
        return people->get(*index);
    known.insert(known.end(), in_rows.begin(), in_rows.end());
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

// Of each group only one may be given.
const std::vector<std::vector<std::string_view>>& rival_groups(std::string_view table) {
    static const std::vector<std::vector<std::string_view>> none;
    static const std::vector<std::vector<std::string_view>> focus{
        {"on"}, {"balanced"}, {"distance_m"}, {"point"}};
    static const std::vector<std::vector<std::string_view>> viewing{
        {"use"}, {"print_long_side_cm", "viewing_distance_cm"}};
    static const std::vector<std::vector<std::string_view>> person{{"stature_m"}, {"age_years"}};
    return table == "focus"     ? focus
           : table == "viewing" ? viewing
           : table == "person"  ? person
                                : none;
}

void displace_rivals(toml::table& table, const Override& override) {
    const std::string& key = override.parts.back();
    const auto holds_key = [&](const auto& group) {
        return std::ranges::find(group, key) != group.end();
    };
    const auto& groups = rival_groups(override.parts.front());
    const toml::node* value = override.value.get("value");
    const bool says_no = value->is_boolean() && !value->as_boolean()->get();
    if (says_no || std::ranges::none_of(groups, holds_key))
        return;
    for (const auto& group : groups)
        if (!holds_key(group))
            for (const std::string_view rival : group)
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

}  // namespace backrow::scene
