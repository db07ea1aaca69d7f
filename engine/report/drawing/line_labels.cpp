#include "report/drawing/line_labels.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <limits>

namespace backrow::report {
namespace {

constexpr double step_px = 3;
constexpr double end_px = 3;    // Between a label and the ends of its stretch.
constexpr double apart_px = 7;  // Between a label and another, or a mark.
constexpr double air_px = 1.5;  // Between a label and a line that it does not cross.
// A line straight across a label shows four or so of its points, one beside it many more.
constexpr std::ptrdiff_t most_crossed = 7;
// A label on a bend leaves its line; the chord of its stretch is then shorter than the stretch.
constexpr double least_straightness = 0.97;

double distance(const Point2& a, const Point2& b) {
    return std::hypot(b.x - a.x, b.y - a.y);
}

Point2 between(const Point2& a, const Point2& b, double share) {
    return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

/// How far along the line each of its points is.
std::vector<double> lengths_of(const std::vector<Point2>& line) {
    std::vector<double> lengths{0};
    for (std::size_t i = 1; i < line.size(); ++i)
        lengths.push_back(lengths.back() + distance(line[i - 1], line[i]));
    return lengths;
}

Point2 point_at(const std::vector<Point2>& line, const std::vector<double>& lengths,
                double along_px) {
    const auto next = std::upper_bound(lengths.begin() + 1, std::prev(lengths.end()), along_px);
    const auto i = static_cast<std::size_t>(next - lengths.begin());
    const double piece_px = lengths[i] - lengths[i - 1];
    return piece_px > 0 ? between(line[i - 1], line[i], (along_px - lengths[i - 1]) / piece_px)
                        : line[i];
}

bool touches(const Obstacle& a, const Obstacle& b, double room_px) {
    return distance(a.middle, b.middle) < a.radius_px + b.radius_px + room_px;
}

bool lies_in(const Obstacle& spot, const Frame& frame) {
    return spot.middle.x - spot.radius_px >= frame.left &&
           spot.middle.x + spot.radius_px <= frame.right &&
           spot.middle.y - spot.radius_px >= frame.top &&
           spot.middle.y + spot.radius_px <= frame.bottom;
}

}  // namespace

std::vector<Point2> outline(const Frame& frame) {
    return {{frame.left, frame.top},
            {frame.right, frame.top},
            {frame.right, frame.bottom},
            {frame.left, frame.bottom}};
}

std::vector<Obstacle> taken_by(const LabelPlace& place, double text_width_px,
                               double text_height_px) {
    const double radius_px = text_height_px / 2;
    const double half_px = std::max(0.0, text_width_px / 2 - radius_px);
    const int spots = 1 + static_cast<int>(std::ceil(2 * half_px / radius_px));
    std::vector<Obstacle> taken;
    for (int i = 0; i < spots; ++i) {
        const double off = spots > 1 ? half_px * (2.0 * i / (spots - 1) - 1) : 0.0;
        taken.push_back({.middle = {place.middle.x + off * std::cos(place.climb_rad),
                                    place.middle.y - off * std::sin(place.climb_rad)},
                         .radius_px = radius_px});
    }
    return taken;
}

std::optional<LabelPlace> label_place(const std::vector<Point2>& line, double text_width_px,
                                      double text_height_px, double wish, const Frame& frame,
                                      const std::vector<Obstacle>& taken,
                                      const std::vector<Obstacle>& lines) {
    const std::vector<double> lengths = lengths_of(line);
    const double whole_px = lengths.back();
    const double half_px = text_width_px / 2 + end_px;

    std::optional<LabelPlace> best;
    double least_cost = std::numeric_limits<double>::infinity();
    for (double along_px = half_px; along_px <= whole_px - half_px; along_px += step_px) {
        const Point2 start = point_at(line, lengths, along_px - half_px);
        const Point2 end = point_at(line, lengths, along_px + half_px);
        const double straightness = distance(start, end) / (2 * half_px);
        if (straightness < least_straightness)
            continue;
        const bool rightwards = start.x <= end.x;
        const Point2 left = rightwards ? start : end;
        const Point2 right = rightwards ? end : start;
        const LabelPlace place{.middle = point_at(line, lengths, along_px),
                               .climb_rad = std::atan2(left.y - right.y, right.x - left.x),
                               .along_px = along_px};
        const auto spots = taken_by(place, text_width_px, text_height_px);
        const auto touched = [&](const Obstacle& other, double room_px) {
            // Most lie far away, and there are thousands.
            const double reach_px = half_px + text_height_px + room_px + other.radius_px;
            return std::abs(other.middle.x - place.middle.x) < reach_px &&
                   std::abs(other.middle.y - place.middle.y) < reach_px &&
                   std::ranges::any_of(
                       spots, [&](const Obstacle& spot) { return touches(spot, other, room_px); });
        };
        if (!std::ranges::all_of(spots,
                                 [&](const Obstacle& spot) { return lies_in(spot, frame); }) ||
            std::ranges::any_of(taken,
                                [&](const Obstacle& other) { return touched(other, apart_px); }))
            continue;
        const auto crossed = std::ranges::count_if(
            lines, [&](const Obstacle& other) { return touched(other, air_px); });
        if (crossed > most_crossed)
            continue;
        const double cost = static_cast<double>(crossed) / 4 +
                            std::abs(along_px / whole_px - wish) + 20 * (1 - straightness);
        if (cost < least_cost) {
            least_cost = cost;
            best = place;
        }
    }
    return best;
}

std::vector<std::vector<Point2>> without_stretch(const std::vector<Point2>& line, double from_px,
                                                 double to_px) {
    const std::vector<double> lengths = lengths_of(line);
    std::vector<Point2> before;
    std::vector<Point2> after;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (lengths[i] < from_px)
            before.push_back(line[i]);
        if (lengths[i] > to_px)
            after.push_back(line[i]);
    }
    std::vector<std::vector<Point2>> pieces;
    if (!before.empty()) {
        before.push_back(point_at(line, lengths, from_px));
        pieces.push_back(std::move(before));
    }
    if (!after.empty()) {
        after.insert(after.begin(), point_at(line, lengths, to_px));
        pieces.push_back(std::move(after));
    }
    return pieces;
}

std::vector<Obstacle> obstacles_of(const std::vector<Point2>& line, double width_px) {
    const std::vector<double> lengths = lengths_of(line);
    std::vector<Obstacle> obstacles;
    for (double along_px = 0; along_px <= lengths.back(); along_px += step_px)
        obstacles.push_back(
            {.middle = point_at(line, lengths, along_px), .radius_px = width_px / 2});
    return obstacles;
}

}  // namespace backrow::report
