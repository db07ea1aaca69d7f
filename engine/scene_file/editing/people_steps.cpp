#include "scene_file/editing/people_steps.h"

#include "scene/person_words.h"
#include "scene/set_words.h"
#include "scene_file/editing/names_written.h"
#include "scene_file/toml/near_miss.h"
#include "scene_file/toml/table_reader.h"
#include "scene_file/toml/toml_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace backrow::scene_file {
namespace {

bool is_about_a_name(const Override& override) {
    return override.parts.size() == 3 && override.parts[0] == "person" &&
           override.parts[2] == "name";
}

bool is_about_a_row(const Override& override) {
    return override.parts.size() == 3 && override.parts[0] == "row" &&
           index_from(override.parts[1]) && override.parts[2] == "people";
}

const std::string* text_asked(const Override& override) {
    return text_of(override.value.get("value"));
}

std::size_t count_of(const toml::table& scene, std::string_view list) {
    const toml::array* array = scene.get_as<toml::array>(list);
    return array == nullptr ? 0 : array->size();
}

enum class NamedAs { in_row, themselves, focus, aim, gaze, carrier, company };

/// A place that names somebody.
struct Mention {
    NamedAs as;
    toml::node* in;
    std::string key{};
    std::size_t index = 0;
};

/// Words that mean no person there.
bool is_word_there(NamedAs as, std::string_view name) {
    return (as == NamedAs::aim && name == "group") ||
           (as == NamedAs::gaze && (name == "camera" || name == "ahead"));
}

void look_at(toml::table* table, const char* key, NamedAs as, std::string_view name,
             std::vector<Mention>& mentions) {
    if (table != nullptr && says(table->get(key), name) && !is_word_there(as, name))
        mentions.push_back({.as = as, .in = table, .key = key});
}

void look_through(toml::node* list, NamedAs as, std::string_view name,
                  std::vector<Mention>& mentions) {
    if (toml::array* names = list == nullptr ? nullptr : list->as_array())
        for (std::size_t i = 0; i < names->size(); ++i)
            if (says(names->get(i), name))
                mentions.push_back({.as = as, .in = names, .index = i});
}

std::vector<toml::table*> tables_of(toml::table& scene, std::string_view list) {
    std::vector<toml::table*> tables;
    if (toml::array* array = scene.get_as<toml::array>(list))
        for (toml::node& node : *array)
            if (toml::table* table = node.as_table())
                tables.push_back(table);
    return tables;
}

/// Everything that this name stands for. What somebody says of themselves goes with them and is not
/// looked for where they go.
std::vector<Mention> mentions_of(toml::table& scene, std::string_view name) {
    std::vector<Mention> mentions;
    look_at(scene.get_as<toml::table>("focus"), "on", NamedAs::focus, name, mentions);
    look_at(scene.get_as<toml::table>("camera"), "aim", NamedAs::aim, name, mentions);
    for (toml::table* row : tables_of(scene, "row"))
        look_through(row->get("people"), NamedAs::in_row, name, mentions);
    for (toml::table* person : tables_of(scene, "person")) {
        look_at(person, "name", NamedAs::themselves, name, mentions);
        look_at(person, "gaze", NamedAs::gaze, name, mentions);
        look_at(person, "carried_by", NamedAs::carrier, name, mentions);
        look_at(person, "with", NamedAs::company, name, mentions);
        look_through(person->get("with"), NamedAs::company, name, mentions);
    }
    return mentions;
}

toml::table* table_of(toml::table& scene, std::string_view name) {
    for (toml::table* person : tables_of(scene, "person"))
        if (says(person->get("name"), name))
            return person;
    return nullptr;
}

/// The child that somebody carries, where it has no place of its own.
const std::string* child_of(toml::table& scene, std::string_view carrier) {
    for (toml::table* person : tables_of(scene, "person"))
        if (const std::string* child = text_of(person->get("name"));
            child != nullptr && says(person->get("carried_by"), carrier) &&
            !holds(names_in_rows(scene), *child))
            return child;
    return nullptr;
}

void put_down(toml::table& child, std::vector<Step>& steps) {
    for (const char* key : {"carried_by", "carried"})
        if (child.contains(key))
            steps.push_back({.in = &child, .key = key});
}

std::vector<Step> steps_out_of_the_picture(toml::table& scene, std::string_view name) {
    std::vector<Step> steps;
    const std::string* child = child_of(scene, name);
    for (const Mention& mention : mentions_of(scene, name)) {
        Step step{.in = mention.in, .key = mention.key, .index = mention.index};
        toml::table* table = mention.in->as_table();
        if (table != nullptr && mention.as != NamedAs::themselves && says(table->get("name"), name))
            continue;
        switch (mention.as) {
        case NamedAs::in_row:
            if (child != nullptr)
                step.value_text = scene::toml_string(*child);
            break;
        case NamedAs::themselves: {
            toml::array& people = *scene.get_as<toml::array>("person");
            const auto at = std::ranges::find_if(
                people, [&](const toml::node& person) { return &person == mention.in; });
            if (people.size() == 1)
                step = {.in = &scene, .key = "person"};
            else
                step = {.in = &people, .index = static_cast<std::size_t>(at - people.begin())};
            break;
        }
        case NamedAs::focus:
            step.new_key = "balanced";
            step.value_text = "true";
            break;
        case NamedAs::aim:
            step.value_text = scene::toml_string("group");
            break;
        case NamedAs::gaze:
            step.value_text = scene::toml_string("camera");
            break;
        case NamedAs::carrier:
            put_down(*table, steps);
            continue;
        case NamedAs::company:
            break;
        }
        steps.push_back(std::move(step));
    }
    return steps;
}

tl::expected<std::vector<Step>, Problem> steps_renaming(toml::table& scene,
                                                        const std::string& before,
                                                        const std::string& now,
                                                        const Override& override) {
    if (auto fault = scene::fault_of_name(now))
        return tl::unexpected(override.problem(std::move(fault->what), std::move(fault->mend)));
    if (holds(names_in_rows(scene), now) || holds(names_in_tables(scene), now))
        return tl::unexpected(
            override.problem(fmt::format("`{}` is in the picture already", shortened(now)),
                             "give namesakes different names"));
    std::vector<Step> steps;
    for (const Mention& mention : mentions_of(scene, before)) {
        if (is_word_there(mention.as, now))
            return tl::unexpected(override.problem(
                fmt::format("as `{}` of something, `{}` is no name", mention.key, now),
                "choose another name"));
        steps.push_back({.in = mention.in,
                         .key = mention.key,
                         .index = mention.index,
                         .value_text = scene::toml_string(now)});
    }
    return steps;
}

}  // namespace

bool changes_people(const Override& override) {
    return is_about_a_name(override) || is_about_a_row(override);
}

bool adds_person(const toml::table& scene, const Override& override) {
    const std::string* asked = text_asked(override);
    return is_about_a_name(override) && asked != nullptr && *asked == override.parts[1] &&
           !holds(names_in_tables(scene), *asked) && !scene::fault_of_name(*asked);
}

bool adds_row(const toml::table& scene, const Override& override) {
    const toml::node* rows = scene.get("row");
    return is_about_a_row(override) && (rows == nullptr || rows->is_array()) &&
           *index_from(override.parts[1]) == count_of(scene, "row");
}

tl::expected<std::vector<Step>, Problem> steps_of(toml::table& scene, const Override& override) {
    if (is_about_a_name(override)) {
        const auto name = name_meant(scene, override);
        if (!name)
            return tl::unexpected(name.error());
        const std::string* asked = text_asked(override);
        if (asked == nullptr)
            return tl::unexpected(override.problem(
                fmt::format("a name is text, not {}", kind_of(*override.value.get("value"))),
                "write it in quotation marks"));
        if (asked->empty())
            return steps_out_of_the_picture(scene, *name);
        if (*asked == *name)
            return std::vector<Step>{};
        return steps_renaming(scene, *name, *asked, override);
    }
    toml::array* rows = scene.get_as<toml::array>("row");
    const std::size_t index = *index_from(override.parts[1]);
    toml::node* row = rows == nullptr ? nullptr : rows->get(index);
    if (row == nullptr || !row->is_table())
        return tl::unexpected(override.problem(
            fmt::format("there is no `row` number {}", index),
            fmt::format("this scene has {}, counted from 0; the next one is made with "
                        "row.{}.people=[\"…\"]",
                        count_of(scene, "row"), count_of(scene, "row"))));
    toml::table& table = *row->as_table();
    std::vector<Step> steps{{.in = &table, .key = "people", .value_text = override.value_text}};
    if (const toml::array* people = override.value.get_as<toml::array>("value"))
        for (const toml::node& person : *people)
            if (const std::string* name = text_of(&person);
                name != nullptr && !holds(names_in_rows(scene), *name))
                if (toml::table* details = table_of(scene, *name))
                    if (const toml::node* by = details->get("carried_by");
                        by != nullptr && place_of(*by).line != 0)
                        put_down(*details, steps);
    return steps;
}

std::vector<std::size_t> empty_rows(const toml::table& scene) {
    std::vector<std::size_t> empty;
    if (const toml::array* rows = scene.get_as<toml::array>("row"))
        for (std::size_t i = 0; i < rows->size(); ++i)
            if (const toml::table* row = rows->get(i)->as_table())
                if (const toml::array* people = row->get_as<toml::array>("people");
                    people != nullptr && people->empty())
                    empty.push_back(i);
    return empty;
}

std::vector<Step> steps_without_emptied_rows(toml::table& scene,
                                             const std::vector<std::size_t>& before) {
    std::vector<Step> steps;
    for (const std::size_t row : empty_rows(scene))
        if (std::ranges::find(before, row) == before.end())
            steps.push_back({.in = scene.get("row"), .index = row});
    if (!steps.empty() && steps.size() == count_of(scene, "row"))
        return {{.in = &scene, .key = "row"}};
    return steps;
}

}  // namespace backrow::scene_file
