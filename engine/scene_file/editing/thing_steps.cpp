#include "scene_file/editing/thing_steps.h"

#include "scene_file/editing/names_written.h"
#include "scene_file/scene_keys.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string_view>

namespace backrow::scene_file {
namespace {

/// What a list of things is called, and the key that makes a thing what it is.
struct ThingList {
    std::vector<std::string_view> path;
    std::string_view key;
};

const std::array thing_lists{ThingList{{"setting", "backdrop"}, "kind"},
                             ThingList{{"model"}, "file"}};

/// "setting.backdrop.0.kind" is about the list of backdrops.
const ThingList* list_of(const Override& override) {
    const std::vector<std::string>& parts = override.parts;
    const auto found = std::ranges::find_if(thing_lists, [&](const ThingList& list) {
        const std::size_t depth = list.path.size();
        return parts.size() == depth + 2 && parts.back() == list.key && index_from(parts[depth]) &&
               std::ranges::equal(list.path, std::span{parts}.first(depth));
    });
    return found == thing_lists.end() ? nullptr : &*found;
}

std::size_t number_in(const ThingList& list, const Override& override) {
    return *index_from(override.parts[list.path.size()]);
}

/// Of [[person]]: what is chosen for them where nothing is said.
constexpr std::array<std::string_view, 10> looks{
    keys::arms.key,        keys::expression.key,  keys::skin.key, keys::hair.key,
    keys::hair_colour.key, keys::headwear_colour, keys::top.key,  keys::top_colour,
    keys::bottom.key,      keys::bottom_colour};

bool is_about_looks(const Override& override) {
    return override.parts.size() == 3 && override.parts[0] == "person" &&
           std::ranges::find(looks, override.parts[2]) != looks.end();
}

bool is_about_panorama(const Override& override) {
    return override.parts.size() == 2 && override.parts[0] == "setting" &&
           override.parts[1] == "panorama";
}

/// The table that has the list; null where there is none.
const toml::table* owner_of(const toml::table& scene, const ThingList& list) {
    return list.path.size() == 1 ? &scene : scene.get_as<toml::table>(list.path.front());
}

/// Whether a table is only there because of the head of the list's first: [[setting.backdrop]].
bool stands_for_nothing_else(const toml::table& owner, const toml::array& list) {
    return owner.size() == 1 && !list.empty() &&
           owner.source().begin == list.get(0)->source().begin;
}

}  // namespace

std::optional<ListMeant> adds_thing(const toml::table& scene, const Override& override) {
    const ThingList* list = list_of(override);
    if (list == nullptr || takes_thing(override))
        return std::nullopt;
    const toml::table* owner = owner_of(scene, *list);
    const toml::node* present = owner == nullptr ? nullptr : owner->get(list->path.back());
    const toml::array* tables = present == nullptr ? nullptr : present->as_array();
    const bool can_have = (owner != nullptr || !scene.contains(list->path.front())) &&
                          (present == nullptr || tables != nullptr);
    const std::size_t count = tables == nullptr ? 0 : tables->size();
    if (!can_have || number_in(*list, override) != count)
        return std::nullopt;
    return ListMeant{.name = fmt::format("{}", fmt::join(list->path, ".")), .tables = tables};
}

bool takes_thing(const Override& override) {
    return (list_of(override) != nullptr || is_about_panorama(override) ||
            is_about_looks(override)) &&
           says(override.value.get("value"), "");
}

tl::expected<std::vector<Step>, Problem> steps_taking_thing(toml::table& scene,
                                                            const Override& override) {
    if (is_about_looks(override)) {
        const auto name = name_meant(scene, override);
        if (!name)
            return tl::unexpected(name.error());
        toml::array* people = scene.get_as<toml::array>("person");
        for (std::size_t i = 0; people != nullptr && i < people->size(); ++i)
            if (toml::table* person = people->get(i)->as_table();
                person != nullptr && says(person->get("name"), *name) &&
                person->contains(override.parts[2]))
                return std::vector<Step>{{.in = person, .key = override.parts[2]}};
        return std::vector<Step>{};
    }
    if (is_about_panorama(override)) {
        toml::table* setting = scene.get_as<toml::table>("setting");
        if (setting == nullptr || !setting->contains("panorama"))
            return std::vector<Step>{};
        return std::vector<Step>{{.in = setting, .key = "panorama"}};
    }
    const ThingList& list = *list_of(override);
    const std::string_view name = list.path.back();
    toml::table* owner =
        list.path.size() == 1 ? &scene : scene.get_as<toml::table>(list.path.front());
    toml::array* tables = owner == nullptr ? nullptr : owner->get_as<toml::array>(name);
    const std::size_t number = number_in(list, override);
    const std::size_t count = tables == nullptr ? 0 : tables->size();
    if (number >= count)
        return tl::unexpected(
            override.problem(fmt::format("there is no `{}` number {}", name, number),
                             fmt::format("this scene has {}, counted from 0", count)));
    if (count > 1)
        return std::vector<Step>{{.in = tables, .index = number}};
    if (owner != &scene && stands_for_nothing_else(*owner, *tables))
        return std::vector<Step>{{.in = &scene, .key = std::string{list.path.front()}}};
    return std::vector<Step>{{.in = owner, .key = std::string{name}}};
}

}  // namespace backrow::scene_file
