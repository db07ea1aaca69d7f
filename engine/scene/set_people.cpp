#include "scene/set_people.h"

#include "scene/set_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace backrow::scene {
namespace {

void insert(std::vector<std::string>& names, std::size_t place, std::string_view name) {
    names.insert(names.begin() + static_cast<std::ptrdiff_t>(std::min(place, names.size())),
                 std::string{name});
}

std::string row_without(const Scene& scene, const Person& who) {
    std::vector<std::string> others = names_in_row(scene, who.row);
    std::erase(others, who.name);
    return set_row(who.row, others);
}

}  // namespace

int row_count(const Scene& scene) {
    int last = -1;
    for (const Person& person : scene.people)
        last = std::max(last, person.row);
    return last + 1;
}

std::vector<std::string> names_in_row(const Scene& scene, int row) {
    std::vector<std::string> names;
    for (const Person& person : scene.people)
        if (person.row == row)
            names.push_back(person.name);
    return names;
}

std::string set_row(int row, const std::vector<std::string>& names) {
    std::vector<std::string> quoted;
    for (const std::string& name : names)
        quoted.push_back(toml_string(name));
    return fmt::format("row.{}.people=[{}]", row, fmt::join(quoted, ", "));
}

std::vector<std::string> set_coming(const Scene& scene, std::string_view name, int row,
                                    std::size_t place) {
    std::vector<std::string> names = names_in_row(scene, row);
    insert(names, place, name);
    return {set_row(row, names)};
}

std::vector<std::string> set_coming_alone(std::string_view name, double across_m, double back_m) {
    return {set_renamed(name, name), set_person_number(name, "across_m", across_m),
            set_person_number(name, "back_m", back_m)};
}

std::string set_leaving(std::string_view name) {
    return set_renamed(name, "");
}

std::string set_renamed(std::string_view name, std::string_view now) {
    return set_words(person_key(name, "name"), now);
}

std::vector<std::string> set_moved(const Scene& scene, std::size_t person, int row,
                                   std::size_t place) {
    const Person& who = scene.people[person];
    std::vector<std::string> names = names_in_row(scene, row);
    std::erase(names, who.name);
    insert(names, place, who.name);
    std::vector<std::string> values;
    if (who.row >= 0 && who.row != row)
        values.push_back(row_without(scene, who));
    values.push_back(set_row(row, names));
    if (who.own.across_m != 0)
        values.push_back(set_person_number(who.name, "across_m", 0));
    if (who.own.back_m != 0)
        values.push_back(set_person_number(who.name, "back_m", 0));
    if (who.own.up_m != 0)
        values.push_back(set_person_number(who.name, "up_m", 0));
    return values;
}

std::vector<std::string> set_moved_out(const Scene& scene, std::size_t person, double across_m,
                                       double back_m) {
    const Person& who = scene.people[person];
    // The place first: whoever is only in a row gets a table of their own by it.
    std::vector<std::string> values{set_person_number(who.name, "across_m", across_m),
                                    set_person_number(who.name, "back_m", back_m)};
    if (who.own.up_m != 0)
        values.push_back(set_person_number(who.name, "up_m", 0));
    if (who.row >= 0)
        values.push_back(row_without(scene, who));
    return values;
}

}  // namespace backrow::scene
