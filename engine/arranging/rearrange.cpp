#include "arranging/rearrange.h"

#include "arranging/arrange_company.h"
#include "arranging/arrange_words.h"
#include "scene/set_people.h"
#include "scene/set_words.h"
#include "scene/words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <utility>

namespace backrow::arranging {
namespace {

using figures::Posture;

/// A row as it stands; people are indices in Scene::people, from picture left.
struct Line {
    int number = 0;
    double back_m = 0;
    double up_m = 0;
    Posture posture = Posture::standing;
    Posture of_small = Posture::standing;  ///< Of its small children, or of some that would come.
    double lean_m = 0;
    std::vector<std::size_t> people;
};

/// The value that most of them have, the first of those that as many have.
template <class Value>
Value prevailing(const std::vector<Value>& values) {
    return *std::ranges::max_element(
        values, {}, [&](const Value& value) { return std::ranges::count(values, value); });
}

bool is_small(const scene::Person& person) {
    return person.measures.stature_m <= small_child_m;
}

/// From front to back.
std::vector<Line> lines_of(const scene::Scene& scene) {
    std::map<int, Line> by_number;
    for (std::size_t i = 0; i < scene.people.size(); ++i)
        if (const scene::Person& person = scene.people[i]; person.row >= 0)
            by_number[person.row].people.push_back(i);
    std::vector<Line> lines;
    for (auto& [number, line] : by_number) {
        const scene::Person& first = scene.people[line.people.front()];
        line.number = number;
        line.back_m = first.place.back_m - first.own.back_m;
        line.up_m = first.place.up_m - first.own.up_m;
        std::vector<Posture> postures;
        std::vector<Posture> postures_of_small;
        std::vector<double> leans_m;
        for (const std::size_t who : line.people) {
            postures.push_back(scene.people[who].pose.posture);
            if (is_small(scene.people[who]))
                postures_of_small.push_back(scene.people[who].pose.posture);
            leans_m.push_back(scene.people[who].pose.lean_m);
        }
        line.posture = prevailing(postures);
        line.of_small = !postures_of_small.empty()        ? prevailing(postures_of_small)
                        : line.posture == Posture::seated ? Posture::standing
                                                          : line.posture;
        line.lean_m = prevailing(leans_m);
        lines.push_back(std::move(line));
    }
    std::ranges::stable_sort(lines, {}, &Line::back_m);
    return lines;
}

bool carries(const scene::Scene& scene, std::size_t who) {
    return std::ranges::any_of(scene.people, [&](const scene::Person& person) {
        return person.carrier == static_cast<int>(who);
    });
}

/// Whether a scene may say so of this person; see read_details.h.
bool can_be(const scene::Scene& scene, std::size_t who, Posture posture) {
    const scene::Person& person = scene.people[who];
    const auto& arms = person.pose.arms;
    const bool in_a_skirt = person.styling.top == figures::Top::dress ||
                            person.styling.bottom == figures::Bottom::skirt;
    const bool hands_are_free = posture == Posture::standing || posture == Posture::kneeling_both;
    const bool needs_them_free = arms == figures::Arms::down || arms == figures::Arms::folded ||
                                 arms == figures::Arms::behind;
    return posture == Posture::standing ||
           (!carries(scene, who) && !(in_a_skirt && wears_trousers(posture)) &&
            !(needs_them_free && !hands_are_free));
}

Posture posture_in(const Line& line, const scene::Scene& scene, std::size_t who) {
    const Posture posture = is_small(scene.people[who]) ? line.of_small : line.posture;
    return can_be(scene, who, posture) ? posture : Posture::standing;
}

std::vector<Applicant> applicants_of(const scene::Scene& scene, const std::vector<Line>& lines,
                                     const std::vector<std::size_t>& who, std::optional<int> row) {
    std::map<std::string, std::size_t> numbers;
    for (std::size_t i = 0; i < who.size(); ++i)
        numbers[scene.people[who[i]].name] = i;
    const bool front_stands = lines.front().posture == Posture::standing;
    const bool front_sits = lines.front().posture == Posture::seated;
    std::vector<Applicant> people;
    for (const std::size_t i : who) {
        const scene::Person& person = scene.people[i];
        Applicant one{.stature_m = person.measures.stature_m, .family = person.styling.family};
        const bool is_eldest = front_sits && person.measures.age_years >= eldest_from_years &&
                               can_be(scene, i, Posture::seated);
        // Somebody who kneels beside those who sit, say.
        const bool is_low = !is_small(person) && person.row == lines.front().number &&
                            person.pose.posture != Posture::standing &&
                            person.pose.posture != lines.front().posture;
        one.front = person.company.celebrated || is_eldest || is_low ? 2
                    : !front_stands && is_small(person)              ? 1
                                                                     : 0;
        one.not_in_front = !is_small(person) && !can_be(scene, i, lines.front().posture);
        one.middle = person.company.celebrated ? Middle::celebrated
                     : is_eldest               ? Middle::eldest
                                               : Middle::no;
        for (const std::string& name : person.company.with)
            if (const auto other = numbers.find(name); other != numbers.end())
                one.beside.push_back(other->second);
        people.push_back(std::move(one));
    }
    std::size_t at = 0;
    for (std::size_t r = 0; r < lines.size(); ++r)
        for (std::size_t place = 0; place < lines[r].people.size(); ++place, ++at) {
            people[at].stands_at = place;
            if (scene.people[who[at]].company.pinned || (row && lines[r].number != *row))
                people[at].pinned = {r, place};
        }
    return people;
}

/// What changes for somebody who comes to another place.
void move_to(const Line& line, const scene::Scene& scene, std::size_t who, Rearrangement& changed) {
    const scene::Person& person = scene.people[who];
    changed.moved.push_back(person.name);
    const std::array<std::pair<const char*, double>, 3> steps{{{"across_m", person.own.across_m},
                                                               {"back_m", person.own.back_m},
                                                               {"up_m", person.own.up_m}}};
    for (const auto& [key, step_m] : steps)
        if (step_m != 0)
            changed.values.push_back(scene::set_person_number(person.name, key, 0));
    if (person.row == line.number)
        return;
    if (const Posture posture = posture_in(line, scene, who); posture != person.pose.posture)
        changed.values.push_back(scene::set_words(scene::person_key(person.name, "posture"),
                                                  scene::word_for(scene::words::posture, posture)));
    if (line.lean_m != person.pose.lean_m)
        changed.values.push_back(scene::set_person_number(person.name, "lean_m", line.lean_m));
}

/// The group as it will stand, for what is said of it.
scene::GroupPlan plan_of(const scene::Scene& scene, const std::vector<Line>& lines,
                         const std::vector<std::vector<std::size_t>>& rows) {
    const auto guest = [](const scene::Person& person) {
        return scene::Guest{.name = person.name,
                            .age_years = person.measures.age_years,
                            .posture = person.pose.posture,
                            .family = person.styling.family,
                            .company = person.company};
    };
    scene::GroupPlan plan;
    for (std::size_t r = 0; r < lines.size(); ++r) {
        scene::PlannedRow& row = plan.rows.emplace_back();
        row.posture = lines[r].posture;
        row.up_m = lines[r].up_m;
        for (const std::size_t who : rows[r]) {
            row.people.push_back(guest(scene.people[who]));
            if (scene.people[who].row != lines[r].number)
                row.people.back().posture = posture_in(lines[r], scene, who);
        }
    }
    for (const scene::Person& person : scene.people)
        if (person.carrier >= 0) {
            plan.carried.push_back(guest(person));
            plan.carried.back().carried_by =
                scene.people[static_cast<std::size_t>(person.carrier)].name;
        }
    return plan;
}

}  // namespace

Rearrangement rearrange(const scene::Scene& scene, std::optional<int> row) {
    Rearrangement changed;
    const std::vector<Line> lines = lines_of(scene);
    if (lines.empty())
        return changed;
    std::vector<std::size_t> who;
    std::vector<int> counts;
    for (const Line& line : lines) {
        who.insert(who.end(), line.people.begin(), line.people.end());
        counts.push_back(static_cast<int>(line.people.size()));
    }
    std::vector<std::vector<std::size_t>> rows =
        rows_of_company(applicants_of(scene, lines, who, row), counts);
    for (std::size_t r = 0; r < rows.size(); ++r) {
        std::vector<std::string> names;
        for (std::size_t place = 0; place < rows[r].size(); ++place) {
            std::size_t& person = rows[r][place];
            person = who[person];
            names.push_back(scene.people[person].name);
            const bool stays = place < lines[r].people.size() && lines[r].people[place] == person;
            if (!stays && !scene.people[person].company.pinned)
                move_to(lines[r], scene, person, changed);
        }
        if (rows[r] != lines[r].people)
            changed.values.push_back(scene::set_row(lines[r].number, names));
    }
    const scene::GroupPlan plan = plan_of(scene, lines, rows);
    changed.choices = choices_of_company(plan);
    std::vector<std::string> kept;
    for (const scene::Person& person : scene.people)
        if (person.company.pinned)
            kept.push_back(person.name);
    if (!kept.empty())
        changed.choices.push_back({"kept", some_of(kept, ", "), "pinned"});
    changed.choices.push_back(
        {"moved", changed.moved.empty() ? "nobody" : some_of(changed.moved, ", "),
         changed.moved.empty()
             ? "all stand so already"
             : "small in front, tall behind, as far as those who belong together allow"});
    if (!changed.moved.empty())
        changed.cautions = cautions_of_places(plan);
    return changed;
}

}  // namespace backrow::arranging
