#pragma once

// Scene files with which random hands begin: those that come with the program, a group just begun,
// and one that is written oddly.

#include "rehearsal/sitting/new_group.h"

#include "demo_scenes.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

namespace backrow::rehearsal {

/// Tables of people within lines, keys with dots, lines of another system, a name with a dot.
inline const std::string oddly_written = "title = 'Written by \"nobody\"'\r\n"
                                         "camera.f_number = 2.0 # wide\r\n"
                                         "camera.distance_m = 4.0\r\n"
                                         "focus = { on = 'J. B.' }\r\n"
                                         "row = [ { people = [ # both\r\n"
                                         "   'Ana', # left\r\n"
                                         "   'J. B.' ], spacing_m = 0.6 } ]\r\n"
                                         "person = [ { name = 'J. B.', stature_m = 1.9 },\r\n"
                                         "  { name = 'Cleo', across_m = 1.2, back_m = 0.3 } ]\r\n"
                                         "setting.backdrop = [ { kind = 'hedge', back_m = 5.0 } ]";

inline std::string family_text() {
    const auto begun = begin_group(
        {.guests = {{.name = "Wilma", .age = "74", .bearing = Bearing::seated},
                    {.name = "Otto", .age = "76", .with = "Wilma", .is_celebrated = true},
                    {.name = "Ana", .family = "north"},
                    {.name = "Ben", .family = "north", .with = "Ana"},
                    {.name = "Ida", .age = "6", .family = "north"},
                    {.name = "Mia",
                     .age = "2",
                     .family = "north",
                     .bearing = Bearing::carried,
                     .carried_by = "Ana"},
                    {.name = "Cleo"},
                    {}},
         .footing = Footing::steps});
    REQUIRE(begun);
    return begun->text;
}

inline std::string on_disk(const std::string& path) {
    std::ifstream file{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{file}, {}};
}

/// A comment of its own on every line that has something, so that none can go unseen.
inline std::string with_marks(const std::string& text) {
    std::istringstream lines{text};
    std::string marked;
    int number = 0;
    for (std::string line; std::getline(lines, line);)
        marked += line.empty() ? "\n" : fmt::format("{}  # mark {};\n", line, ++number);
    return marked;
}

struct Start {
    std::string what;
    std::string text;
    bool is_begun = false;
};

inline std::vector<Start> starts() {
    std::vector<Start> all{{"oddly written", oddly_written},
                           {"a family begun", family_text(), true},
                           {"a family", with_marks(family_text())}};
    for (const std::string& file : demo_scene_files())
        all.push_back({file, with_marks(on_disk(file))});
    return all;
}

}  // namespace backrow::rehearsal
