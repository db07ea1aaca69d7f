#include "arranging/arrange_people.h"

#include "arranging/centimetres.h"

#include "arranging/first_names.h"
#include "scene/person_words.h"

#include "figures/measures/population.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>

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

std::vector<scene::Guest> guests_of(const GroupWishes& wishes) {
    const auto all = static_cast<std::size_t>(wishes.people);
    const std::size_t grown = all - wishes.child_ages.size();
    const std::size_t given = wishes.statures_m.size();
    NameList ours{wishes.names};
    std::vector<scene::Guest> guests;
    for (std::size_t i = 0; i < all; ++i) {
        scene::Guest guest;
        const figures::Sex sex =
            (i - std::min(i, given)) % 2 == 0 ? figures::Sex::female : figures::Sex::male;
        const bool is_named = i < wishes.names.size();
        guest.name = is_named ? wishes.names[i] : ours.next(sex);
        if (i < std::min(grown, given)) {
            guest.stature_m = wishes.statures_m[i];
        } else {
            if (!is_named)
                guest.sex = sex;
            if (i < grown)
                guest.stature_m = drawn_stature_m(i - given, grown - given, sex);
            else
                guest.age_years = wishes.child_ages[i - grown];
        }
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

}  // namespace backrow::arranging
