#pragma once

// Groups whose cards are looked at: demo scenes, and people with long names in several scripts.

#include "../rehearsal/demo_scenes.h"
#include "../scene_file/scene_folder.h"

#include "papers/card/card.h"

#include <fmt/format.h>

#include <array>
#include <string>

namespace backrow::papers {

/// Latin, Cyrillic, Greek, Hebrew, Arabic, Han, Devanagari; some longer than any column.
inline constexpr std::array long_names{"Maximiliane-Theodora von Untersteinach-Hohenfels",
                                       "אביגיל רבקה בן־שחר מירושלים",
                                       "ليلى عبد الرحمن الخطيب",
                                       "Александра Константиновна Преображенская",
                                       "Παρασκευή Χαραλαμποπούλου",
                                       "王小明",
                                       "अनुराधा चट्टोपाध्याय",
                                       "Wolfeschlegelsteinhausenbergerdorff",
                                       "Bo",
                                       "Nguyễn Thị Thùy Dương"};

/// So many people in rows of ten, each with a name of their own.
inline scene::Scene group_of(int people) {
    std::string text = "title = \"People with long names, שמות ארוכים, أسماء طويلة\"\n"
                       "[camera]\nfocal_length_mm = 35\nf_number = 5.6\ndistance_m = 7.0\n";
    constexpr int row = 10;
    for (int first = 0; first < people; first += row) {
        text +=
            fmt::format("[[row]]\nback_m = {}\nup_m = {}\npeople = [", 0.07 * first, 0.03 * first);
        for (int i = first; i < std::min(first + row, people); ++i)
            text += fmt::format("\"{} {}\", ",
                                long_names[static_cast<std::size_t>(i) % long_names.size()], i + 1);
        text += "]\n";
    }
    const scene_file::SceneFolder folder;
    auto scene = folder.read(text);
    REQUIRE(scene);
    return std::move(*scene);
}

/// Nine people whose names, of one word, are as long as a scene takes them, and a long title.
inline scene::Scene longest_names() {
    constexpr std::size_t most_letters = 60;
    std::string text = "title = \"" + std::string(400, 'T') + "\"\n";
    for (int row = 0; row < 3; ++row) {
        text += fmt::format("[[row]]\nback_m = {}\nup_m = {}\npeople = [", row, 0.3 * row);
        for (int i = 0; i < 3; ++i)
            text += fmt::format("\"{}{}{}\", ", row, i, std::string(most_letters - 2, 'W'));
        text += "]\n";
    }
    const scene_file::SceneFolder folder;
    auto scene = folder.read(text);
    REQUIRE(scene);
    return std::move(*scene);
}

inline Language german() {
    auto language = Language::of("de");
    REQUIRE(language);
    return std::move(*language);
}

}  // namespace backrow::papers
