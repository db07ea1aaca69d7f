#include "arranging/arrange_people.h"

#include "arranging/arrange_company.h"
#include "arranging/centimetres.h"
#include "arranging/first_names.h"
#include "scene/person_words.h"

#include "figures/measures/population.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace backrow::arranging {
namespace {

/// Women and men take turns; the share is the middle of each one's part of her or his half.
double drawn_stature_m(std::size_t index, std::size_t drawn, figures::Sex sex) {
    const std::size_t of_this_sex = sex == figures::Sex::female ? (drawn + 1) / 2 : drawn / 2;
    const std::size_t before_this_one = index / 2;
    const double share =
        (static_cast<double>(before_this_one) + 0.5) / static_cast<double>(of_this_sex);
    return to_centimetre(figures::stature_m_at_share(share, sex));
}

/// What is known of somebody goes before what the lists and the population say; a stature that
/// nobody gave goes where the age is known.
void learn(const scene::Guest& known, bool was_measured, scene::Guest& guest) {
    const scene::Guest listed = std::exchange(guest, known);
    if (!guest.age_years)
        guest.age_years = listed.age_years;
    if (!guest.stature_m && (was_measured || !guest.age_years))
        guest.stature_m = listed.stature_m;
    if (guest.sex == figures::Sex::neutral)
        guest.sex = listed.sex;
}

bool is_old(const scene::Guest& guest) {
    return guest.age_years && *guest.age_years >= eldest_from_years;
}

bool is_carrying(const scene::Guest& guest, const std::vector<scene::Guest>& carried) {
    return std::ranges::find(carried, guest.name, &scene::Guest::carried_by) != carried.end();
}

bool has_a_seat(const scene::Guest& guest, const std::vector<scene::Guest>& carried) {
    return guest.posture ? *guest.posture == figures::Posture::seated
                         : is_old(guest) && !is_carrying(guest, carried);
}

/// With the fewest people in its shortest row that can be: rows that differ by one from row to row.
/// Every way of stepping up or down is tried; the flattest wins, then the one longer at the back.
std::optional<std::vector<int>> stepped_counts(int people, int rows) {
    constexpr int most_rows_tried = 10;
    if (rows > most_rows_tried)
        return std::nullopt;
    std::optional<std::vector<int>> best;
    int least_range = 0;
    for (unsigned ways = 0; ways < 1U << (rows - 1); ++ways) {
        std::vector<int> counts{0};
        for (int r = 1; r < rows; ++r)
            counts.push_back(counts.back() + ((ways >> (r - 1)) % 2 == 0 ? 1 : -1));
        int sum = 0;
        for (const int count : counts)
            sum += count;
        const auto [least, most] = std::ranges::minmax(counts);
        if ((people - sum) % rows != 0 || (people - sum) / rows + least < 1)
            continue;
        if (best && most - least >= least_range)
            continue;
        least_range = most - least;
        for (int& count : counts)
            count += (people - sum) / rows;
        best = counts;
    }
    return best;
}

}  // namespace

double stature_m_of(const scene::Guest& guest) {
    return scene::measures_of(guest.stature_m, guest.age_years, guest.sex).stature_m;
}

std::vector<scene::Guest> known_beside_names(const GroupWishes& wishes) {
    std::vector<scene::Guest> further;
    std::set<std::string> met{wishes.names.begin(), wishes.names.end()};
    const auto meet = [&](const scene::Guest& guest) {
        if (met.insert(guest.name).second)
            further.push_back(guest);
    };
    for (const scene::Guest& guest : wishes.known)
        meet(guest);
    for (const scene::Guest& guest : wishes.known) {
        for (const std::string& other : guest.company.with)
            meet({.name = other});
        if (!guest.carried_by.empty())
            meet({.name = guest.carried_by});
    }
    return further;
}

int people_of(const GroupWishes& wishes) {
    const std::size_t listed = std::max(wishes.names.size(), wishes.child_ages.size());
    return wishes.people.value_or(static_cast<int>(listed + known_beside_names(wishes).size()));
}

std::vector<scene::Guest> guests_of(const GroupWishes& wishes) {
    const std::vector<scene::Guest> further = known_beside_names(wishes);
    const std::size_t listed = static_cast<std::size_t>(people_of(wishes)) - further.size();
    const std::size_t grown = listed - wishes.child_ages.size();
    const std::size_t given = std::min(grown, wishes.statures_m.size());
    const auto is_drawn = [](const scene::Guest& guest) {
        return !guest.stature_m && !guest.age_years;
    };
    const std::size_t drawn =
        grown - given + static_cast<std::size_t>(std::ranges::count_if(further, is_drawn));
    std::vector<std::string> named = wishes.names;
    for (const scene::Guest& guest : further)
        named.push_back(guest.name);
    NameList ours{named};
    std::vector<scene::Guest> guests;
    std::size_t next_drawn = 0;
    const auto sex_of_next = [&] {
        return next_drawn % 2 == 0 ? figures::Sex::female : figures::Sex::male;
    };
    const auto draw_stature = [&](scene::Guest& guest) {
        guest.stature_m = drawn_stature_m(next_drawn, drawn, sex_of_next());
        ++next_drawn;
    };
    for (std::size_t i = 0; i < listed; ++i) {
        scene::Guest guest;
        const figures::Sex sex =
            (i - std::min(i, given)) % 2 == 0 ? figures::Sex::female : figures::Sex::male;
        const bool is_named = i < wishes.names.size();
        guest.name = is_named ? wishes.names[i] : ours.next(sex);
        if (!is_named && i >= given)
            guest.sex = sex;
        if (i < given)
            guest.stature_m = wishes.statures_m[i];
        else if (i < grown)
            draw_stature(guest);
        else
            guest.age_years = wishes.child_ages[i - grown];
        const auto known = std::ranges::find(wishes.known, guest.name, &scene::Guest::name);
        if (known != wishes.known.end())
            learn(*known, i < given, guest);
        guests.push_back(std::move(guest));
    }
    for (scene::Guest guest : further) {
        if (is_drawn(guest))
            draw_stature(guest);
        guests.push_back(std::move(guest));
    }
    return guests;
}

std::vector<int> row_counts(int people, int rows, bool staggered) {
    if (staggered)
        if (auto counts = stepped_counts(people, rows))
            return *counts;
    std::vector<int> counts;
    for (int r = 0; r < rows; ++r)
        counts.push_back(people / rows + (r >= rows - people % rows ? 1 : 0));
    return counts;
}

std::vector<std::vector<scene::Guest>> rows_by_stature(std::vector<scene::Guest> guests,
                                                       const std::vector<int>& counts) {
    std::ranges::stable_sort(guests, {}, stature_m_of);
    std::vector<std::vector<scene::Guest>> rows;
    auto next = guests.begin();
    for (const int count : counts) {
        // The tallest takes the middle, the next ones its sides in turn, right first.
        std::vector<scene::Guest> row(static_cast<std::size_t>(count));
        int place = (count - 1) / 2;
        for (int taken = 1; taken <= count; ++taken) {
            row[static_cast<std::size_t>(place)] = *(next + (count - taken));
            place += taken % 2 == 1 ? taken : -taken;
        }
        next += count;
        rows.push_back(std::move(row));
    }
    return rows;
}

bool has_company(const std::vector<scene::Guest>& guests,
                 const std::vector<scene::Guest>& carried) {
    return !carried.empty() || std::ranges::any_of(guests, [](const scene::Guest& guest) {
        return guest.posture || !guest.family.empty() || !guest.company.with.empty() ||
               guest.company.celebrated || is_old(guest);
    });
}

bool has_sitters_and_others(const std::vector<scene::Guest>& guests,
                            const std::vector<scene::Guest>& carried) {
    const auto sits = [&](const scene::Guest& guest) { return has_a_seat(guest, carried); };
    return std::ranges::any_of(guests, sits) &&
           std::ranges::any_of(guests, [&](const scene::Guest& guest) {
               return !sits(guest) && stature_m_of(guest) > small_child_m;
           });
}

std::vector<std::vector<scene::Guest>> rows_by_company(std::vector<scene::Guest> guests,
                                                       const std::vector<scene::Guest>& carried,
                                                       const RowsAsked& asked) {
    const bool stands = asked.front == figures::Posture::standing;
    std::vector<Applicant> people;
    int in_front = 0;
    for (const scene::Guest& guest : guests) {
        Applicant one{.stature_m = stature_m_of(guest), .family = guest.family};
        const bool carries = is_carrying(guest, carried);
        const bool small = !stands && one.stature_m <= small_child_m;
        one.front = guest.company.celebrated || guest.posture || has_a_seat(guest, carried) ? 2
                    : small                                                                 ? 1
                                                                                            : 0;
        one.not_in_front = carries && !stands;
        one.middle = guest.company.celebrated     ? Middle::celebrated
                     : has_a_seat(guest, carried) ? Middle::eldest
                                                  : Middle::no;
        in_front += one.front > 0 ? 1 : 0;
        people.push_back(std::move(one));
    }
    for (std::size_t i = 0; i < guests.size(); ++i)
        for (const std::string& name : guests[i].company.with)
            if (const auto other = std::ranges::find(guests, name, &scene::Guest::name);
                other != guests.end())
                people[i].beside.push_back(static_cast<std::size_t>(other - guests.begin()));

    const int all = static_cast<int>(guests.size());
    const int rows = asked.rows;
    std::vector<int> counts = row_counts(all, rows, asked.staggered);
    const int long_front = std::min({in_front, (2 * all + rows - 1) / rows, all - (rows - 1)});
    if (long_front > counts.front() && rows > 1) {
        const int others = all - long_front;
        const int behind =
            asked.exactly ? rows - 1 : std::min(rows - 1, (others + long_front - 1) / long_front);
        counts = row_counts(others, behind, asked.staggered);
        counts.insert(counts.begin(), long_front);
    }
    std::vector<std::vector<scene::Guest>> placed;
    for (const std::vector<std::size_t>& row : rows_of_company(people, counts)) {
        if (row.empty())
            continue;
        std::vector<scene::Guest> standing;
        for (const std::size_t who : row) {
            scene::Guest& guest = standing.emplace_back(std::move(guests[who]));
            if (guest.posture || !placed.empty())
                continue;
            if (!stands && (people[who].not_in_front || people[who].stature_m <= small_child_m))
                guest.posture = figures::Posture::standing;
            else if (people[who].middle == Middle::eldest &&
                     asked.front != figures::Posture::seated)
                guest.posture = figures::Posture::seated;
        }
        placed.push_back(std::move(standing));
    }
    return placed;
}

}  // namespace backrow::arranging
