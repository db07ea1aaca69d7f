#pragma once

// A change of a scene file has taken nothing away that it was not asked to.

#include "scene/scene.h"
#include "scene/set_words.h"
#include "scene_file/editing/override.h"
#include "scene_file/editing/told_values.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace backrow::rehearsal {

using Told = std::map<std::string, std::string>;

inline Told told(const std::string& text) {
    const auto told = scene_file::told_values(text, "");
    REQUIRE(told);
    return *told;
}

inline std::set<std::string> marks_of(const std::string& text) {
    std::set<std::string> marks;
    for (auto at = text.find("# mark "); at != text.npos; at = text.find("# mark ", at + 1))
        marks.insert(text.substr(at, text.find_first_of(";\n", at) - at));
    return marks;
}

/// Whether somebody or something may go by it, or keys that say the contrary of what it sets.
inline bool takes_away(const std::vector<std::string>& values) {
    return std::ranges::any_of(values, [](const std::string& value) {
        return value.ends_with("=\"\"") || value.find(".people=") != value.npos ||
               value.find(".carried") != value.npos || value.starts_with("focus.") ||
               value.starts_with("viewing.");
    });
}

/// "camera" of "camera.f_number=2.8": people, rows and lists may get other keys.
inline bool names_people_or_things(const std::string& value) {
    return value.find(".name=") != value.npos || value.find(".people=") != value.npos ||
           value.find(".kind=") != value.npos || value.find(".file=") != value.npos ||
           value.find(".carried") != value.npos;
}

inline std::string table_of(const std::string& key) {
    return key.substr(0, key.rfind('.'));
}

/// A scene file at one moment.
struct Moment {
    std::string text;
    std::vector<scene::Person> people;
};

/// Of whoever no value names, body and looks; and they are still there.
inline void check_is_as_they_were(const scene::Person& person,
                                  const std::vector<std::string>& values, const Moment& after) {
    const std::string key = scene::person_key(person.name, "");
    if (std::ranges::any_of(values,
                            [&](const std::string& value) { return value.starts_with(key); }))
        return;
    CAPTURE(person.name);
    const auto still = std::ranges::find(after.people, person.name, &scene::Person::name);
    REQUIRE(still != after.people.end());
    CHECK(still->measures == person.measures);
    CHECK(still->styling == person.styling);
}

/// Comments that random_starts.h has put in, and all that other tables say, or other people.
inline void check_nothing_lost(const Moment& before, const std::vector<std::string>& values,
                               const Moment& after) {
    if (!takes_away(values))
        CHECK(std::ranges::includes(marks_of(after.text), marks_of(before.text)));
    if (std::ranges::any_of(values, names_people_or_things)) {
        for (const scene::Person& person : before.people)
            check_is_as_they_were(person, values, after);
        return;
    }
    std::set<std::string> tables;
    for (const std::string& value : values)
        tables.insert(table_of(std::string{scene_file::key_of(value)}));
    const Told was = told(before.text), is = told(after.text);
    for (const auto& [key, value] : was)
        if (!tables.contains(table_of(key)) && !tables.contains(key)) {
            CAPTURE(key);
            REQUIRE(is.contains(key));
            CHECK(is.at(key) == value);
        }
}

}  // namespace backrow::rehearsal
