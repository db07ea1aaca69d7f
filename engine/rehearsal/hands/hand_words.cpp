#include "rehearsal/hands/hand_words.h"

#include "base/units.h"

#include <fmt/format.h>

#include <cmath>

namespace backrow::rehearsal {

double to_the_centimetre(double metres) {
    return m_from_cm(std::round(cm_from_m(metres)));
}

std::string plain(double value) {
    return fmt::format("{:.6g}", value);
}

std::string in_cm(double metres, Units units) {
    return length_words(metres, LengthScale::whole_centimetres, units);
}

std::string in_m(double metres, Units units) {
    return length_words(to_the_centimetre(metres), LengthScale::short_metres, units);
}

std::string step_words(double across_m, double back_m, Units units) {
    std::string words;
    if (std::lround(cm_from_m(across_m)) != 0)
        words =
            in_cm(std::abs(across_m), units) + (across_m > 0 ? " to the right" : " to the left");
    if (std::lround(cm_from_m(back_m)) != 0)
        words += (words.empty() ? "" : " and ") + in_cm(std::abs(back_m), units) +
                 (back_m > 0 ? " back" : " forward");
    return words;
}

std::string who_words(const std::vector<std::string>& names) {
    switch (names.size()) {
    case 1:
        return names[0];
    case 2:
        return fmt::format("{} and {}", names[0], names[1]);
    case 3:
        return fmt::format("{}, {} and {}", names[0], names[1], names[2]);
    default:
        return fmt::format("{} people", names.size());
    }
}

std::string who_words(const scene::Scene& scene, std::span<const std::size_t> people) {
    std::vector<std::string> names;
    for (const std::size_t person : people)
        names.push_back(scene.people[person].name);
    return who_words(names);
}

}  // namespace backrow::rehearsal
