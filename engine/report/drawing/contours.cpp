#include "report/drawing/contours.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace backrow::report {
namespace {

/// A side of a square, by the number of the corner that it starts from and its direction.
using Side = std::size_t;

Side side_to_the_right(std::size_t corner) {
    return 2 * corner;
}

Side side_downwards(std::size_t corner) {
    return 2 * corner + 1;
}

/// Which sides the curve joins. Each side belongs to two squares, so it has two neighbours, or one
/// at the border of the net.
using Neighbours = std::map<Side, std::vector<Side>>;

Neighbours neighbours_at(const Field& field, double level) {
    Neighbours neighbours;
    const auto join = [&](Side a, Side b) {
        neighbours[a].push_back(b);
        neighbours[b].push_back(a);
    };
    for (std::size_t row = 0; row + 1 < field.rows; ++row)
        for (std::size_t column = 0; column + 1 < field.columns; ++column) {
            const std::size_t corner = row * field.columns + column;
            // Corners and sides in a round: each side runs from its corner to the next.
            const std::array<double, 4> values{field.at(column, row), field.at(column + 1, row),
                                               field.at(column + 1, row + 1),
                                               field.at(column, row + 1)};
            const std::array<Side, 4> sides{side_to_the_right(corner), side_downwards(corner + 1),
                                            side_to_the_right(corner + field.columns),
                                            side_downwards(corner)};
            std::vector<Side> crossed;
            for (std::size_t i = 0; i < 4; ++i)
                if ((values[i] >= level) != (values[(i + 1) % 4] >= level))
                    crossed.push_back(sides[i]);
            if (crossed.size() == 2)
                join(crossed[0], crossed[1]);
            if (crossed.size() == 4) {
                // The pair of like corners that the middle belongs with is not cut off.
                const double middle = (values[0] + values[1] + values[2] + values[3]) / 4;
                const bool cuts_off_second = (middle >= level) == (values[0] >= level);
                join(sides[0], sides[cuts_off_second ? 1 : 3]);
                join(sides[2], sides[cuts_off_second ? 3 : 1]);
            }
        }
    return neighbours;
}

Point2 crossing(const Field& field, double level, Side side) {
    const std::size_t from = side / 2;
    const bool right = side % 2 == 0;
    const std::size_t to = right ? from + 1 : from + field.columns;
    const double share = (level - field.values[from]) / (field.values[to] - field.values[from]);
    const std::size_t column = from % field.columns;
    const std::size_t row = from / field.columns;
    const Point2 start{static_cast<double>(column), static_cast<double>(row)};
    return right ? Point2{start.x + share, start.y} : Point2{start.x, start.y + share};
}

/// Chains of sides; a closed one ends with the neighbour of its first side.
struct Chain {
    std::vector<Side> sides{};
    bool closed = false;
};

std::vector<Chain> chains_of(const Neighbours& neighbours) {
    std::vector<Chain> chains;
    std::set<Side> used;
    const auto follow = [&](Side start, bool closed) {
        Chain chain{.sides = {start}, .closed = closed};
        used.insert(start);
        for (bool goes_on = true; goes_on;) {
            goes_on = false;
            for (const Side next : neighbours.at(chain.sides.back()))
                if (used.insert(next).second) {
                    chain.sides.push_back(next);
                    goes_on = true;
                    break;
                }
        }
        chains.push_back(std::move(chain));
    };
    for (const auto& [side, others] : neighbours)
        if (others.size() == 1 && !used.contains(side))
            follow(side, false);
    for (const auto& [side, others] : neighbours)
        if (!used.contains(side))
            follow(side, true);
    return chains;
}

template <class PointOf>
std::vector<Curve> curves_of(const std::vector<Chain>& chains, const PointOf& point_of) {
    std::vector<Curve> curves;
    for (const Chain& chain : chains) {
        Curve curve{.points = {}, .closed = chain.closed};
        for (const Side side : chain.sides)
            curve.points.push_back(point_of(side));
        curves.push_back(std::move(curve));
    }
    return curves;
}

/// The field with a ring round it that is below everything.
Field ringed(const Field& field) {
    Field ring{.columns = field.columns + 2,
               .rows = field.rows + 2,
               .values = std::vector<double>((field.columns + 2) * (field.rows + 2),
                                             -std::numeric_limits<double>::infinity())};
    for (std::size_t row = 0; row < field.rows; ++row)
        for (std::size_t column = 0; column < field.columns; ++column)
            ring.values[(row + 1) * ring.columns + column + 1] = field.at(column, row);
    return ring;
}

}  // namespace

std::vector<Curve> level_curves(const Field& field, double level) {
    return curves_of(chains_of(neighbours_at(field, level)),
                     [&](Side side) { return crossing(field, level, side); });
}

// The ring has no width: it lies on the border. So a side that leads to it is crossed at the
// border, wherever interpolation with an endless value would put it.
std::vector<Curve> region_above(const Field& field, double level) {
    const Field ring = ringed(field);
    const auto point_of = [&](Side side) {
        const Point2 point = crossing(ring, level, side);
        const std::size_t corner = side / 2;
        const auto on_net = [](double ringed_place, std::size_t start, std::size_t count) {
            const double place =
                std::isfinite(ringed_place) ? ringed_place : static_cast<double>(start);
            return std::clamp(place - 1, 0.0, static_cast<double>(count - 1));
        };
        return Point2{on_net(point.x, corner % ring.columns, field.columns),
                      on_net(point.y, corner / ring.columns, field.rows)};
    };
    return curves_of(chains_of(neighbours_at(ring, level)), point_of);
}

}  // namespace backrow::report
