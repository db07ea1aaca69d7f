#include "rehearsal/hands/people_handling.h"

#include "rehearsal/hands/hand_words.h"
#include "rehearsal/hands/looks.h"
#include "rehearsal/hands/row_handling.h"

#include "arranging/first_names.h"
#include "scene/limits.h"
#include "scene/rows.h"
#include "scene/set_people.h"
#include "scene/set_words.h"
#include "scene/settle.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace backrow::rehearsal {
namespace {

constexpr double beside_m = 0.5;

std::string free_name(const scene::Scene& scene) {
    std::vector<std::string> taken;
    int women = 0;
    for (const scene::Person& person : scene.people) {
        taken.push_back(person.name);
        women += person.measures.sex == figures::Sex::female ? 1 : 0;
    }
    const bool is_woman = 2 * women <= static_cast<int>(scene.people.size());
    return arranging::NameList{taken}.next(is_woman ? figures::Sex::female : figures::Sex::male);
}

std::vector<std::string> coming_beside(const scene::Scene& scene, const std::string& name,
                                       std::optional<std::size_t> beside) {
    if (!beside)
        return set_coming(scene, name, 0, scene::people_in_row(scene, 0).size());
    const std::size_t feet = on_whose_feet(scene.people, *beside);
    const scene::Person& neighbour = scene.people[feet];
    if (neighbour.row < 0)
        return scene::set_coming_alone(name, to_the_centimetre(neighbour.place.across_m + beside_m),
                                       to_the_centimetre(neighbour.place.back_m));
    const std::vector<std::size_t> row = scene::people_in_row(scene, neighbour.row);
    const auto place = std::ranges::find(row, feet) - row.begin() + 1;
    return set_coming(scene, name, neighbour.row, static_cast<std::size_t>(place));
}

}  // namespace

Newcomer add_person(const scene::Scene& scene, std::optional<std::size_t> beside) {
    const std::string name = free_name(scene);
    return {.change = {.what = "Add " + name, .values = coming_beside(scene, name, beside)},
            .name = name};
}

Newcomer add_another_like(const scene::Scene& scene, std::size_t person) {
    Newcomer newcomer = add_person(scene, person);
    const std::vector<std::string> looks = looks_of(scene.people[person], newcomer.name);
    newcomer.change.values.insert(newcomer.change.values.end(), looks.begin(), looks.end());
    return newcomer;
}

Change remove_people(const scene::Scene& scene, std::span<const std::size_t> people) {
    Change change{.what = "Take " + who_words(scene, people) + " out", .values = {}};
    if (people.size() >= scene.people.size())
        return change;
    for (const std::size_t person : people)
        change.values.push_back(scene::set_leaving(scene.people[person].name));
    return change;
}

Change rename(const scene::Scene& scene, std::size_t person, std::string_view name) {
    const std::string& before = scene.people[person].name;
    Change change{.what = fmt::format("{} is {}", before, name), .values = {}};
    if (name != before && !name.empty())
        change.values = {scene::set_renamed(before, name)};
    return change;
}

Change grow_to_age(const scene::Scene& scene, std::size_t person, double age_years) {
    const scene::Person& who = scene.people[person];
    const double within = std::clamp(std::round(age_years), scene::limits::age_years.least,
                                     scene::limits::age_years.greatest);
    return {.what = fmt::format("{} is {:g} years old", who.name, within),
            .values = {scene::set_person_number(who.name, "age_years", within)}};
}

Change carry(const scene::Scene& scene, std::size_t child, std::optional<std::size_t> carrier) {
    const scene::Person& who = scene.people[child];
    if (carrier) {
        const scene::Person& arms = scene.people[*carrier];
        Change change{
            .what = fmt::format("{} carries {}", arms.name, who.name),
            .values = {scene::set_words(scene::person_key(who.name, "carried_by"), arms.name)}};
        if (who.row >= 0) {
            std::vector<std::string> others = names_in_row(scene, who.row);
            std::erase(others, who.name);
            change.values.push_back(scene::set_row(who.row, others));
        }
        return change;
    }
    Change change{.what = who.name + " put down", .values = {}};
    if (who.carrier < 0)
        return change;
    const auto feet = static_cast<std::size_t>(who.carrier);
    const scene::Person& arms = scene.people[feet];
    if (arms.row < 0) {
        change.values = {
            scene::set_person_number(who.name, "across_m",
                                     to_the_centimetre(arms.place.across_m + beside_m)),
            scene::set_person_number(who.name, "back_m", to_the_centimetre(arms.place.back_m))};
        return change;
    }
    const std::vector<std::size_t> row = scene::people_in_row(scene, arms.row);
    const auto place = std::ranges::find(row, feet) - row.begin() + 1;
    change.values = set_moved(scene, child, arms.row, static_cast<std::size_t>(place));
    return change;
}

Change say_of(const scene::Scene& scene, std::span<const std::size_t> people, std::string_view key,
              std::string_view value) {
    Change change{.what = fmt::format("{}: {} {}", who_words(scene, people), key, value),
                  .values = {}};
    for (const std::size_t person : people)
        change.values.push_back(
            fmt::format("{}={}", scene::person_key(scene.people[person].name, key), value));
    return change;
}

Change stay_beside(const scene::Scene& scene, std::size_t person, std::string_view whom) {
    const std::array one{person};
    return say_of(scene, one, "with",
                  whom.empty() ? "[]" : fmt::format("[{}]", scene::toml_string(whom)));
}

Change arrange_again(const arranging::Rearrangement& again) {
    return {.what = "Arrange again", .values = again.values};
}

Change look_at(const scene::Scene& scene, std::span<const std::size_t> people,
               std::string_view whom) {
    Change change{.what = fmt::format("{} looks: {}", who_words(scene, people), whom),
                  .values = {}};
    for (const std::size_t person : people)
        if (scene.people[person].name != whom)
            change.values.push_back(
                scene::set_words(scene::person_key(scene.people[person].name, "gaze"), whom));
    return change;
}

}  // namespace backrow::rehearsal
