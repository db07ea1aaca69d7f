#include "arranging/arrange_company.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

namespace backrow::arranging {
namespace {

/// People who stand side by side, in this order.
struct Party {
    std::vector<std::size_t> people;
    bool is_pinned = false;
};

/// From picture left to right, row by row.
using Rows = std::vector<std::vector<Party>>;

/// A row being filled.
struct Row {
    std::map<std::size_t, std::size_t> pinned;  ///< Who, by place.
    std::vector<Party> parties;
    std::size_t free = 0;
};

/// Who stays beside whom, whichever of them says so.
std::vector<std::vector<std::size_t>> links_of(const std::vector<Applicant>& people) {
    std::vector<std::vector<std::size_t>> links(people.size());
    const auto link = [&](std::size_t from, std::size_t to) {
        if (from != to && std::ranges::find(links[from], to) == links[from].end())
            links[from].push_back(to);
    };
    for (std::size_t i = 0; i < people.size(); ++i)
        for (const std::size_t other : people[i].beside) {
            link(i, other);
            link(other, i);
        }
    return links;
}

/// Those who are linked stand in a chain that begins at an end of theirs: of three who all stay
/// beside the same one, that one comes second.
std::vector<Party> parties_of(const std::vector<Applicant>& people,
                              const std::vector<std::vector<std::size_t>>& links) {
    std::vector<std::size_t> by_links(people.size());
    std::iota(by_links.begin(), by_links.end(), std::size_t{0});
    std::ranges::stable_sort(by_links, {}, [&](std::size_t i) { return links[i].size(); });
    std::vector<bool> taken(people.size());
    std::vector<Party> parties;
    for (const std::size_t first : by_links) {
        if (taken[first] || people[first].pinned)
            continue;
        Party party;
        std::vector<std::size_t> next{first};
        while (!next.empty()) {
            const std::size_t who = next.back();
            next.pop_back();
            if (taken[who])
                continue;
            taken[who] = true;
            party.people.push_back(who);
            for (const std::size_t other : links[who])
                if (!taken[other] && !people[other].pinned)
                    next.push_back(other);
        }
        parties.push_back(std::move(party));
    }
    return parties;
}

double mean_stature_m(const std::vector<Applicant>& people, const Party& party) {
    double sum_m = 0;
    for (const std::size_t who : party.people)
        sum_m += people[who].stature_m;
    return sum_m / static_cast<double>(party.people.size());
}

int front_of(const std::vector<Applicant>& people, const Party& party) {
    int front = 0;
    for (const std::size_t who : party.people)
        front = std::max(front, people[who].front);
    return front;
}

bool may_be_in_front(const std::vector<Applicant>& people, const Party& party) {
    return std::ranges::none_of(party.people,
                                [&](std::size_t who) { return people[who].not_in_front; });
}

/// The row of somebody who stays beside one of the party and has a place.
std::optional<std::size_t> row_kept_for(const std::vector<Applicant>& people,
                                        const std::vector<std::vector<std::size_t>>& links,
                                        const Party& party) {
    for (const std::size_t who : party.people)
        for (const std::size_t other : links[who])
            if (people[other].pinned)
                return people[other].pinned->row;
    return std::nullopt;
}

/// A chain that no row could hold fills what rows have left.
void tear_apart(Party& party, std::vector<Row>& rows) {
    for (Row& row : rows) {
        const auto part = party.people.begin() +
                          static_cast<std::ptrdiff_t>(std::min(row.free, party.people.size()));
        row.free -= static_cast<std::size_t>(part - party.people.begin());
        if (part != party.people.begin())
            row.parties.push_back({.people = {party.people.begin(), part}});
        party.people.erase(party.people.begin(), part);
    }
}

std::vector<Row> rows_filled(const std::vector<Applicant>& people,
                             const std::vector<std::vector<std::size_t>>& links,
                             const std::vector<int>& counts) {
    std::vector<Row> rows(counts.size());
    for (std::size_t r = 0; r < rows.size(); ++r)
        rows[r].free = static_cast<std::size_t>(std::max(counts[r], 0));
    for (std::size_t i = 0; i < people.size(); ++i)
        if (const auto& spot = people[i].pinned) {
            Row& row = rows[std::min(spot->row, rows.size() - 1)];
            std::size_t place = spot->place;
            while (row.pinned.contains(place))
                ++place;
            row.pinned[place] = i;
            row.free -= std::min<std::size_t>(row.free, 1);
        }
    std::vector<Party> waiting = parties_of(people, links);
    std::ranges::stable_sort(waiting, [&](const Party& a, const Party& b) {
        const int front_a = front_of(people, a);
        const int front_b = front_of(people, b);
        return front_a != front_b ? front_a > front_b
                                  : mean_stature_m(people, a) < mean_stature_m(people, b);
    });
    const auto fill = [&](Row& row, auto suits) {
        std::vector<Party> left;
        for (Party& party : waiting)
            if (party.people.size() <= row.free && suits(party)) {
                row.free -= party.people.size();
                row.parties.push_back(std::move(party));
            } else {
                left.push_back(std::move(party));
            }
        waiting = std::move(left);
    };
    for (std::size_t r = 0; r < rows.size(); ++r)
        fill(rows[r], [&](const Party& party) { return row_kept_for(people, links, party) == r; });
    for (std::size_t r = 0; r < rows.size(); ++r)
        fill(rows[r], [&](const Party& party) {
            return r > 0 || rows.size() == 1 || may_be_in_front(people, party);
        });
    const int longest = std::ranges::max(counts);
    for (Party& party : waiting) {
        if (static_cast<int>(party.people.size()) > longest)
            tear_apart(party, rows);
        if (!party.people.empty())
            rows.back().parties.push_back(std::move(party));
    }
    return rows;
}

/// Families from picture left to right: those with somebody for the middle in the middle, then the
/// larger; whoever has none is one alone, outside of them.
std::map<std::string, int> ranks_of(const std::vector<Applicant>& people) {
    struct Weight {
        int middle = 0;
        int count = 0;
    };
    std::map<std::string, Weight> weights;
    for (const Applicant& one : people)
        if (!one.family.empty()) {
            Weight& weight = weights[one.family];
            weight.middle = std::max(weight.middle, static_cast<int>(one.middle));
            ++weight.count;
        }
    std::vector<std::pair<std::string, Weight>> order(weights.begin(), weights.end());
    std::ranges::stable_sort(order, [](const auto& a, const auto& b) {
        return std::pair{a.second.middle, a.second.count} >
               std::pair{b.second.middle, b.second.count};
    });
    std::map<std::string, int> ranks;
    int side = 0;
    for (const auto& [family, weight] : order) {
        ranks[family] = side;
        side = side > 0 ? -side : 1 - side;
    }
    return ranks;
}

/// Around those who are pinned, one party after another where it fits; torn apart only where none
/// does.
std::vector<Party> laid_out(Row row) {
    std::size_t size = row.pinned.size();
    for (const Party& party : row.parties)
        size += party.people.size();
    std::map<std::size_t, std::size_t> pinned;  // Those beyond the row's end come to it.
    std::size_t end = size;
    for (auto at = row.pinned.rbegin(); at != row.pinned.rend(); ++at) {
        end = std::min(at->first, end - 1);
        pinned[end] = at->second;
    }
    std::vector<Party> order;
    for (std::size_t place = 0; place < size;) {
        const auto next = pinned.lower_bound(place);
        const std::size_t gap = (next == pinned.end() ? size : next->first) - place;
        if (gap == 0) {
            order.push_back({.people = {next->second}, .is_pinned = true});
            ++place;
            continue;
        }
        auto party = std::ranges::find_if(
            row.parties, [&](const Party& one) { return one.people.size() <= gap; });
        if (party == row.parties.end()) {
            Party& torn = row.parties.front();
            const auto cut = torn.people.begin() + static_cast<std::ptrdiff_t>(gap);
            order.push_back({.people = {torn.people.begin(), cut}});
            torn.people.erase(torn.people.begin(), cut);
            place += gap;
            continue;
        }
        place += party->people.size();
        order.push_back(std::move(*party));
        row.parties.erase(party);
    }
    return order;
}

/// How far from what is wished for a group stands; unit is a place in a row. The weights are by
/// eye: a place off the middle for the one celebrated counts as much as a family spread over many.
class Wishes {
public:
    Wishes(const std::vector<Applicant>& people, const std::vector<std::vector<std::size_t>>& links)
        : people_{people}, links_{links}, across_(people.size()), row_(people.size()) {
        std::map<std::string, std::size_t> numbers;
        for (const Applicant& one : people)
            family_.push_back(one.family.empty()
                                  ? no_family
                                  : numbers.try_emplace(one.family, numbers.size()).first->second);
        spreads_.resize(numbers.size());
    }

    void stand(const std::vector<Party>& row, std::size_t number) {
        for_each_place(row, [&](std::size_t who, double across) {
            across_[who] = across;
            row_[who] = number;
        });
    }

    /// Hundreds of people in one row can be exchanged for longer than anybody waits.
    [[nodiscard]] bool has_patience() const { return looks_left_ > 0; }

    /// Looks at a row: families' places in the other rows are what they are.
    void look_at(std::size_t number) {
        std::ranges::fill(spreads_, Spread{});
        for (std::size_t i = 0; i < people_.size(); ++i)
            if (family_[i] != no_family && row_[i] != number)
                spreads_[family_[i]].add(across_[i]);
    }

    /// Of the row that is looked at, as if it stood so.
    [[nodiscard]] double of(const std::vector<Party>& row, std::size_t number) {
        stand(row, number);
        double sum = 0;
        changed_.clear();
        for_each_place(row, [&](std::size_t who, double across) {
            --looks_left_;
            const Applicant& one = people_[who];
            constexpr double for_the_tall = 0.05;
            constexpr double for_the_eldest = 4;
            constexpr double for_the_celebrated = 50;
            const double middle = for_the_tall * one.stature_m +
                                  (one.middle == Middle::celebrated ? for_the_celebrated
                                   : one.middle == Middle::eldest   ? for_the_eldest
                                                                    : 0);
            sum += middle * across * across + beside(who, across);
            if (family_[who] != no_family)
                changed_[family_[who]].add(across);
        });
        for (const auto& [family, here] : changed_)
            sum += spreads_[family].with(here).spread();
        return sum;
    }

    /// Of all rows; families count once for each row, in whichever they stand.
    [[nodiscard]] double of(const Rows& rows) {
        for (std::size_t r = 0; r < rows.size(); ++r)
            stand(rows[r], r);
        double sum = 0;
        for (std::size_t r = 0; r < rows.size(); ++r) {
            look_at(r);
            sum += of(rows[r], r);
        }
        return sum;
    }

private:
    static constexpr std::size_t no_family = static_cast<std::size_t>(-1);

    /// Of places across: how many, their sum and that of their squares.
    struct Spread {
        double count = 0;
        double sum = 0;
        double squares = 0;

        void add(double across) {
            count += 1;
            sum += across;
            squares += across * across;
        }
        [[nodiscard]] Spread with(const Spread& other) const {
            return {count + other.count, sum + other.sum, squares + other.squares};
        }
        /// Of everybody's distance from their mean, squared.
        [[nodiscard]] double spread() const { return squares - sum * sum / count; }
    };

    template <class Each>
    static void for_each_place(const std::vector<Party>& row, Each each) {
        double count = 0;
        for (const Party& party : row)
            count += static_cast<double>(party.people.size());
        double across = -(count - 1) / 2;
        for (const Party& party : row)
            for (const std::size_t who : party.people)
                each(who, across++);
    }

    [[nodiscard]] double beside(std::size_t who, double across) const {
        constexpr double for_pairs = 10;
        double sum = 0;
        for (const std::size_t other : links_[who]) {
            const double apart = std::abs(across - across_[other]);
            const double off = row_[who] == row_[other] ? apart - 1 : apart;
            sum += for_pairs * off * off;
        }
        return sum;
    }

    const std::vector<Applicant>& people_;
    const std::vector<std::vector<std::size_t>>& links_;
    std::vector<double> across_;
    std::vector<std::size_t> row_;
    std::vector<std::size_t> family_;
    std::vector<Spread> spreads_;
    std::map<std::size_t, Spread> changed_;
    long looks_left_ = 20'000'000;
};

/// Whether two parties may change places without anybody pinned being shifted.
bool may_change(const std::vector<Party>& row, std::size_t a, std::size_t b) {
    if (row[a].is_pinned || row[b].is_pinned)
        return false;
    return row[a].people.size() == row[b].people.size() ||
           std::none_of(row.begin() + static_cast<std::ptrdiff_t>(a),
                        row.begin() + static_cast<std::ptrdiff_t>(b),
                        [](const Party& between) { return between.is_pinned; });
}

/// Tries every exchange of two parties and every turn of one; returns whether one was better.
bool improve(std::vector<Party>& row, std::size_t number, Wishes& wishes) {
    constexpr double least_gain = 1e-9;
    wishes.look_at(number);
    double best = wishes.of(row, number);
    bool improved = false;
    const auto keep_or = [&](auto undo) {
        if (const double now = wishes.of(row, number); now < best - least_gain) {
            best = now;
            improved = true;
        } else {
            undo();
        }
    };
    for (std::size_t a = 0; a < row.size() && wishes.has_patience(); ++a) {
        const auto turn = [&] { std::ranges::reverse(row[a].people); };
        if (row[a].people.size() > 1) {
            turn();
            keep_or(turn);
        }
        for (std::size_t b = a + 1; b < row.size(); ++b) {
            if (!may_change(row, a, b))
                continue;
            const auto change = [&] { std::swap(row[a], row[b]); };
            change();
            keep_or(change);
        }
    }
    wishes.stand(row, number);
    return improved;
}

/// From left to right as an order has it, which is where exchanges begin.
template <class Order>
Rows begun_in_order_of(const std::vector<Row>& filled, Order order) {
    Rows rows;
    for (Row row : filled) {
        std::ranges::stable_sort(row.parties, {}, order);
        rows.push_back(laid_out(std::move(row)));
    }
    return rows;
}

Rows exchanged(Rows rows, Wishes& wishes) {
    for (std::size_t r = 0; r < rows.size(); ++r)
        wishes.stand(rows[r], r);
    bool goes_on = true;
    while (goes_on && wishes.has_patience()) {
        goes_on = false;
        for (std::size_t r = 0; r < rows.size(); ++r)
            goes_on = improve(rows[r], r, wishes) || goes_on;
    }
    return rows;
}

}  // namespace

std::vector<std::vector<std::size_t>> rows_of_company(const std::vector<Applicant>& people,
                                                      const std::vector<int>& counts) {
    const std::vector<std::vector<std::size_t>> links = links_of(people);
    const std::map<std::string, int> ranks = ranks_of(people);
    const std::vector<Row> filled = rows_filled(people, links, counts);
    Wishes wishes{people, links};
    Rows best =
        exchanged(begun_in_order_of(filled,
                                    [&](const Party& party) {
                                        for (const std::size_t who : party.people)
                                            if (const auto family = ranks.find(people[who].family);
                                                family != ranks.end())
                                                return family->second;
                                        return static_cast<int>(ranks.size());
                                    }),
                  wishes);
    if (std::ranges::any_of(people,
                            [](const Applicant& one) { return one.stands_at.has_value(); })) {
        Rows as_now =
            exchanged(begun_in_order_of(filled,
                                        [&](const Party& party) {
                                            return people[party.people.front()].stands_at.value_or(
                                                people.size());
                                        }),
                      wishes);
        constexpr double worth_moving = 1e-6;
        if (wishes.of(as_now) < wishes.of(best) + worth_moving)
            best = std::move(as_now);
    }
    std::vector<std::vector<std::size_t>> placed;
    for (const std::vector<Party>& row : best) {
        placed.emplace_back();
        for (const Party& party : row)
            placed.back().insert(placed.back().end(), party.people.begin(), party.people.end());
    }
    return placed;
}

}  // namespace backrow::arranging
