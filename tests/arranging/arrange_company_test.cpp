#include "arranging/arrange_company.h"

#include "base/splitmix64.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numeric>
#include <string>
#include <vector>

namespace backrow::arranging {
namespace {

class Lot {
public:
    explicit Lot(std::uint64_t seed) : at_{seed} {}
    std::size_t below(std::size_t count) { return splitmix64(at_ += counter_step) % count; }

private:
    std::uint64_t at_;
};

/// Families of two to six, each with a couple at its head, and a few who came alone.
std::vector<Applicant> drawn_group(Lot& lot) {
    std::vector<Applicant> people;
    const std::size_t families = 2 + lot.below(4);
    for (std::size_t f = 0; f < families; ++f) {
        const std::string name(1, static_cast<char>('A' + f));
        const std::size_t first = people.size();
        people.push_back({.stature_m = 1.75, .family = name, .beside = {first + 1}});
        people.push_back({.stature_m = 1.65, .family = name});
        for (std::size_t child = lot.below(5); child > 0; --child)
            people.push_back({.stature_m = 0.9 + 0.02 * static_cast<double>(lot.below(30)),
                              .family = name,
                              .front = 1});
    }
    for (std::size_t alone = lot.below(4); alone > 0; --alone)
        people.push_back({.stature_m = 1.6 + 0.01 * static_cast<double>(lot.below(25))});
    return people;
}

std::vector<int> even_counts(std::size_t people, std::size_t rows) {
    std::vector<int> counts;
    for (std::size_t r = 0; r < rows; ++r)
        counts.push_back(static_cast<int>(people / rows + (r >= rows - people % rows ? 1 : 0)));
    return counts;
}

struct Place {
    std::size_t row = 0;
    double across = 0;
};

std::vector<Place> places(const std::vector<std::vector<std::size_t>>& rows, std::size_t people) {
    std::vector<Place> of(people);
    std::vector<int> met(people);
    for (std::size_t r = 0; r < rows.size(); ++r)
        for (std::size_t i = 0; i < rows[r].size(); ++i) {
            ++met[rows[r][i]];
            of[rows[r][i]] = {r, static_cast<double>(i) -
                                     (static_cast<double>(rows[r].size()) - 1) / 2};
        }
    CHECK(std::ranges::all_of(met, [](int times) { return times == 1; }));
    return of;
}

/// Places across between two of one family, on average.
double apart(const std::vector<Applicant>& people, const std::vector<Place>& places) {
    double sum = 0;
    int pairs = 0;
    for (std::size_t i = 0; i < people.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (!people[i].family.empty() && people[i].family == people[j].family) {
                sum += std::abs(places[i].across - places[j].across);
                ++pairs;
            }
    return sum / pairs;
}

}  // namespace

// Common practice, no source.
TEST_CASE("a couple stands side by side, and a family in one part of the picture",
          "[arranging][practice]") {
    Lot lot{14};
    double together = 0;
    double by_chance = 0;
    for (int round = 0; round < 300; ++round) {
        const std::vector<Applicant> people = drawn_group(lot);
        const std::vector<int> counts = even_counts(people.size(), 1 + lot.below(3));
        const auto rows = rows_of_company(people, counts);
        const std::vector<Place> of = places(rows, people.size());
        for (std::size_t i = 0; i < people.size(); ++i)
            for (const std::size_t other : people[i].beside) {
                CHECK(of[i].row == of[other].row);
                CHECK(std::abs(of[i].across - of[other].across) == 1);
            }
        together += apart(people, of);
        auto anyhow = rows;
        for (auto& row : anyhow)
            for (std::size_t i = row.size(); i > 1; --i)
                std::swap(row[i - 1], row[lot.below(i)]);
        by_chance += apart(people, places(anyhow, people.size()));
        CHECK(rows_of_company(people, counts) == rows);
    }
    CHECK(together < 0.6 * by_chance);
}

// Common practice, no source.
TEST_CASE("small children stand in front, before their own", "[arranging][practice]") {
    Lot lot{2};
    double off_own = 0;
    double off_others = 0;
    for (int round = 0; round < 300; ++round) {
        const std::vector<Applicant> people = drawn_group(lot);
        const auto children =
            std::ranges::count_if(people, [](const Applicant& one) { return one.front > 0; });
        if (children == 0 || children == std::ssize(people))
            continue;
        const std::vector<Place> of =
            places(rows_of_company(people, {static_cast<int>(children),
                                            static_cast<int>(std::ssize(people) - children)}),
                   people.size());
        for (std::size_t child = 0; child < people.size(); ++child) {
            if (people[child].front == 0)
                continue;
            CHECK(of[child].row == 0);
            for (std::size_t other = 0; other < people.size(); ++other)
                if (!people[other].beside.empty())  // one of each couple
                    (people[other].family == people[child].family ? off_own : off_others) +=
                        std::abs(of[child].across - of[other].across) /
                        (people[other].family == people[child].family ? 1.0 : 3.0);
        }
    }
    CHECK(off_own < 0.6 * off_others);
}

// Common practice, no source.
TEST_CASE("whom the picture is about has the middle, and the eldest are next to it",
          "[arranging][practice]") {
    Lot lot{3};
    for (int round = 0; round < 300; ++round) {
        std::vector<Applicant> people = drawn_group(lot);
        const std::size_t about = lot.below(people.size());
        people[about].middle = Middle::celebrated;
        people[about].front = 2;
        const std::vector<int> counts = even_counts(people.size(), 1 + lot.below(3));
        const std::vector<Place> of = places(rows_of_company(people, counts), people.size());
        if (counts[0] > 1)  // A pair has no room in a row of one.
            CHECK(of[about].row == 0);
        // Beside somebody else it is the pair that has the middle.
        CHECK(std::abs(of[about].across) <= 1);
    }
    std::vector<Applicant> row(9, Applicant{.stature_m = 1.7});
    row[0].middle = Middle::celebrated;
    row[3].middle = row[7].middle = Middle::eldest;
    const auto rows = rows_of_company(row, {9});
    CHECK(rows[0][4] == 0);
    CHECK(std::min(rows[0][3], rows[0][5]) == 3);
    CHECK(std::max(rows[0][3], rows[0][5]) == 7);
}

TEST_CASE("whoever is pinned keeps the place, and a partner comes beside",
          "[arranging][property]") {
    Lot lot{4};
    for (int round = 0; round < 300; ++round) {
        std::vector<Applicant> people = drawn_group(lot);
        const std::vector<int> counts = even_counts(people.size(), 1 + lot.below(3));
        std::map<std::size_t, Spot> pinned;
        for (std::size_t row = 0; row < counts.size(); ++row) {
            const std::size_t who = lot.below(people.size());
            if (people[who].pinned)
                continue;
            people[who].pinned = {row, lot.below(static_cast<std::size_t>(counts[row]))};
            pinned[who] = *people[who].pinned;
        }
        const auto rows = rows_of_company(people, counts);
        const std::vector<Place> of = places(rows, people.size());
        for (const auto& [who, spot] : pinned) {
            CHECK(of[who].row == spot.row);
            // A row that a pair has made shorter ends before the place.
            if (spot.place < rows[spot.row].size())
                CHECK(rows[spot.row][spot.place] == who);
        }
    }
    std::vector<Applicant> pair(7, Applicant{.stature_m = 1.7});
    pair[5].pinned = {0, 1};
    pair[2].beside = {5};
    const auto rows = rows_of_company(pair, {3, 4});
    CHECK(rows[0][1] == 5);
    CHECK((rows[0][0] == 2 || rows[0][2] == 2));
}

TEST_CASE("two thousand people of families in a single row still find a place",
          "[arranging][property]") {
    std::vector<Applicant> people;
    for (int i = 0; i < 2000; ++i)
        people.push_back({.stature_m = 1.7, .family = std::to_string(i % 300)});
    places(rows_of_company(people, {2000}), people.size());
}

}  // namespace backrow::arranging
