#include "rehearsal/hands/looks.h"

#include "rehearsal/hands/hand_words.h"

#include "scene/set_words.h"
#include "scene/words.h"
#include "scene_file/reading/colours.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace backrow::rehearsal {
namespace {

template <class Value, std::size_t N>
std::vector<std::string_view> all_of(const scene::Words<Value, N>& words) {
    std::vector<std::string_view> all;
    for (const auto& [word, meaning] : words)
        all.push_back(word);
    return all;
}

/// And none of them, for what is chosen where nothing is said.
std::vector<std::string_view> or_unsaid(std::vector<std::string_view> words) {
    words.insert(words.begin(), std::string_view{});
    return words;
}

template <class Value, std::size_t N>
std::string_view word_if(const scene::Words<Value, N>& words, const std::optional<Value>& value) {
    return value ? scene::word_for(words, *value) : std::string_view{};
}

std::string_view colour_word(const std::optional<glm::dvec3>& colour) {
    if (colour)
        for (const std::string_view word : scene_file::colour_words())
            if (scene_file::linear_from_named_colour(word) == colour)
                return word;
    return {};
}

std::string_view build_word(const scene::Person& person) {
    const figures::BodyMeasures& measures = person.measures;
    const figures::BodyMeasures plain =
        figures::body_measures(measures.stature_m, measures.age_years, measures.sex);
    for (const auto& [word, build] : scene::words::build)
        if (with_physique(plain, build).bideltoid_breadth_m == measures.bideltoid_breadth_m)
            return word;
    return {};
}

const std::vector<std::string_view> yes_or_no{"yes", "no"};

bool is_yes_or_no(const Look& look) {
    return look.words == yes_or_no;
}

std::string value_for(std::string_view name, const Look& look, std::string_view word) {
    const std::string key = scene::person_key(name, look.key);
    return is_yes_or_no(look) ? fmt::format("{}={}", key, word == "yes" ? "true" : "false")
                              : scene::set_words(key, word);
}

bool is_carried(const scene::Person& person) {
    return person.carrier >= 0;
}

/// Whoever is carried has neither posture nor arms of their own, and whoever carries stands. Skirts
/// do not go with every posture.
bool can_have(const scene::Scene& scene, std::size_t person, const Look& look,
              std::string_view word) {
    const std::string_view key{look.key};
    const bool carries = std::ranges::find(scene.people, static_cast<int>(person),
                                           &scene::Person::carrier) != scene.people.end();
    const scene::Person& who = scene.people[person];
    if (word == "skirt" || word == "dress")
        return !wears_trousers(who.pose.posture);
    return !(is_carried(who) && (key == "posture" || key == "arms")) &&
           !(carries && key == "posture");
}

/// A colour without a name counts, too.
bool is_said(const scene::Person& who, const Look& look) {
    const std::string_view key{look.key};
    return !look.now(who).empty() || (key == "top_colour" && who.styling.top_colour) ||
           (key == "bottom_colour" && who.styling.bottom_colour) ||
           (key == "headwear_colour" && who.styling.headwear_colour);
}

/// What nobody has to say.
bool goes_without_saying(const Look& look, std::string_view word) {
    const std::string_view key{look.key};
    return word.empty() || word == "no" || (key == "headwear" && word == "none") ||
           (key == "build" && word == "medium") || (key == "posture" && word == "standing");
}

}  // namespace

const std::vector<Look>& looks() {
    namespace w = scene::words;
    using scene::Person;
    static const std::vector<Look> all{
        {"Posture", "posture", all_of(w::posture),
         [](const Person& p) { return scene::word_for(w::posture, p.pose.posture); }, true},
        {"Arms", "arms", or_unsaid(all_of(w::arms)),
         [](const Person& p) { return word_if(w::arms, p.pose.arms); }, true},
        {"Expression", "expression", or_unsaid(all_of(w::expression)),
         [](const Person& p) { return word_if(w::expression, p.pose.expression); }, true},
        {"Build", "build", all_of(w::build), build_word},
        {"Skin", "skin", or_unsaid(all_of(w::skin)),
         [](const Person& p) { return word_if(w::skin, p.styling.skin); }},
        {"Hair", "hair", or_unsaid(all_of(w::hair)),
         [](const Person& p) { return word_if(w::hair, p.styling.hair); }},
        {"Hair colour", "hair_colour", or_unsaid(all_of(w::hair_colour)),
         [](const Person& p) { return word_if(w::hair_colour, p.styling.hair_colour); }},
        {"Glasses", "glasses", yes_or_no,
         [](const Person& p) -> std::string_view { return p.styling.glasses ? "yes" : "no"; }},
        {"Beard", "beard", yes_or_no,
         [](const Person& p) -> std::string_view { return p.styling.beard ? "yes" : "no"; }},
        {"Headwear", "headwear", all_of(w::headwear),
         [](const Person& p) { return scene::word_for(w::headwear, p.styling.headwear); }},
        {"Its colour", "headwear_colour", or_unsaid(scene_file::colour_words()),
         [](const Person& p) { return colour_word(p.styling.headwear_colour); }},
        {"Top", "top", or_unsaid(all_of(w::top)),
         [](const Person& p) { return word_if(w::top, p.styling.top); }},
        {"Its colour", "top_colour", or_unsaid(scene_file::colour_words()),
         [](const Person& p) { return colour_word(p.styling.top_colour); }},
        {"Below", "bottom", or_unsaid(all_of(w::bottom)),
         [](const Person& p) { return word_if(w::bottom, p.styling.bottom); }},
        {"Its colour", "bottom_colour", or_unsaid(scene_file::colour_words()),
         [](const Person& p) { return colour_word(p.styling.bottom_colour); }}};
    return all;
}

Change choose_look(const scene::Scene& scene, std::span<const std::size_t> people, const Look& look,
                   std::string_view word) {
    Change change{.what = fmt::format("{}: {}", who_words(scene, people),
                                      word.empty() ? look.unsaid() : word),
                  .values = {}};
    for (const std::size_t person : people)
        if (const scene::Person& who = scene.people[person];
            can_have(scene, person, look, word) &&
            (word.empty() ? is_said(who, look) : look.now(who) != word))
            change.values.push_back(value_for(who.name, look, word));
    return change;
}

std::vector<std::string> looks_of(const scene::Person& person, std::string_view other) {
    std::vector<std::string> values{
        scene::set_person_number(other, "stature_m", person.measures.stature_m),
        scene::set_person_number(other, "age_years", person.measures.age_years)};
    if (person.measures.sex != figures::Sex::neutral)
        values.push_back(scene::set_words(scene::person_key(other, "sex"),
                                          scene::word_for(scene::words::sex, person.measures.sex)));
    if (!person.styling.family.empty())
        values.push_back(
            scene::set_words(scene::person_key(other, "family"), person.styling.family));
    for (const Look& look : looks())
        if (const std::string_view now = look.now(person);
            !goes_without_saying(look, now) && !(is_carried(person) && look.is_bearing))
            values.push_back(value_for(other, look, now));
    return values;
}

}  // namespace backrow::rehearsal
