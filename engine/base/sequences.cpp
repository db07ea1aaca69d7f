#include "base/sequences.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numbers>
#include <numeric>

namespace backrow {
namespace {

int stride_prime_to(int count) {
    const double golden_section = 2.0 - std::numbers::phi;
    int stride = std::max(1, static_cast<int>(std::lround(count * golden_section)));
    while (std::gcd(stride, count) != 1)
        ++stride;
    return stride;
}

// The share of the unit disc that lies below a line at this height.
double share_below(double height) {
    const double h = std::clamp(height, -1.0, 1.0);
    return 0.5 + (h * std::sqrt(1.0 - h * h) + std::asin(h)) / std::numbers::pi;
}

// How far the shares of the points on one side of straight lines are from those of the disc, mean
// square over lines in many directions (the statistic of Cramér and von Mises): a straight edge out
// of focus shows just that.
double unevenness(const std::vector<Point2>& points) {
    constexpr int directions = 12;
    std::vector<double> heights(points.size());
    double sum = 0;
    for (int direction = 0; direction < directions; ++direction) {
        const double angle = direction * std::numbers::pi / directions;
        std::ranges::transform(points, heights.begin(),
                               [&](const Point2& point) { return turned(point, angle).y; });
        std::ranges::sort(heights);
        for (std::size_t i = 0; i < heights.size(); ++i) {
            const double expected =
                (static_cast<double>(i) + 0.5) / static_cast<double>(heights.size());
            const double off = share_below(heights[i]) - expected;
            sum += off * off;
        }
    }
    return sum / static_cast<double>(points.size());
}

}  // namespace

Point2 turned(const Point2& point, double angle_rad) noexcept {
    return {point.x * std::cos(angle_rad) - point.y * std::sin(angle_rad),
            point.x * std::sin(angle_rad) + point.y * std::cos(angle_rad)};
}

std::vector<int> disc_point_turns(int count) {
    const std::int64_t stride = stride_prime_to(count);
    std::vector<int> turns;
    turns.reserve(static_cast<std::size_t>(count));
    for (std::int64_t k = 0; k < count; ++k)
        turns.push_back(static_cast<int>(k * stride % count));
    return turns;
}

std::vector<Point2> disc_points(int count) {
    const double golden_angle = 2.0 * std::numbers::pi * (2.0 - std::numbers::phi);
    std::vector<Point2> points;
    points.reserve(static_cast<std::size_t>(count));
    for (const int i : disc_point_turns(count)) {
        const double radius = std::sqrt((i + 0.5) / count);
        const double angle = i * golden_angle;
        points.push_back({radius * std::cos(angle), radius * std::sin(angle)});
    }
    return points;
}

std::vector<Point2> disc_points_between(const std::vector<Point2>& before) {
    constexpr int turns = 24;
    const std::vector<Point2> block = disc_points(static_cast<int>(before.size()));
    std::vector<Point2> all = before;
    all.resize(2 * before.size());
    const auto added = all.begin() + static_cast<std::ptrdiff_t>(before.size());
    const auto turn_block = [&](int turn) {
        std::ranges::transform(block, added, [&](const Point2& point) {
            return turned(point, turn * 2.0 * std::numbers::pi / turns);
        });
    };
    int best = 0;
    double least = std::numeric_limits<double>::infinity();
    for (int turn = 0; turn < turns; ++turn) {
        turn_block(turn);
        if (const double uneven = unevenness(all); uneven < least) {
            least = uneven;
            best = turn;
        }
    }
    turn_block(best);
    return {added, all.end()};
}

Point2 square_point(std::uint64_t index) noexcept {
    // 1/g and 1/g², g the real root of g³ = g + 1.
    constexpr double a1 = 0.7548776662466927;
    constexpr double a2 = 0.5698402909980532;
    const auto n = static_cast<double>(index);
    const double x = 0.5 + a1 * n;
    const double y = 0.5 + a2 * n;
    return {x - std::floor(x), y - std::floor(y)};
}

namespace {

/// An outline scale·((1 − w) a/cos p + w) about one side of a polygon, w its roundness and a the
/// apothem with which straight sides enclose the disc's area; half is half the angle of a side.
struct RoundedSide {
    double half, apothem, roundness, scale;

    RoundedSide(int sides, double round) noexcept
        : half{std::numbers::pi / sides}, apothem{std::sqrt(half / std::tan(half))},
          roundness{round}, scale{1} {
        scale = std::sqrt(half / twice_area_to(half));
    }
    [[nodiscard]] double reach(double p) const noexcept {
        return scale * ((1 - roundness) * apothem / std::cos(p) + roundness);
    }
    /// The integral of the squared reach from the middle of the side.
    [[nodiscard]] double twice_area_to(double p) const noexcept {
        const double straight = (1 - roundness) * apothem;
        return scale * scale *
               (straight * straight * std::tan(p) +
                2 * straight * roundness * std::asinh(std::tan(p)) + roundness * roundness * p);
    }
};

}  // namespace

double polygon_reach(int sides, double roundness, double from_side_rad) noexcept {
    return RoundedSide{sides, roundness}.reach(from_side_rad);
}

Point2 polygon_from_disc(const Point2& in_disc, int sides, double roundness) noexcept {
    const double radius = std::hypot(in_disc.x, in_disc.y);
    if (radius == 0.0)
        return in_disc;
    // Within one sector of half angle h the disc's angle t becomes the polygon's angle p with
    // tan(p)/tan(h) = t/h, so that equal shares of the disc's area become equal shares of the
    // triangle's; the edge lies at apothem/cos(p), and the apothem makes the whole areas equal:
    // sides·apothem²·tan(h) = π.
    const double half_sector = std::numbers::pi / sides;
    const double turn = std::atan2(in_disc.x, in_disc.y) - half_sector;
    const double sector = std::floor(turn / (2.0 * half_sector) + 0.5);
    const double within = turn - sector * 2.0 * half_sector;
    double bent = std::atan(within / half_sector * std::tan(half_sector));
    const double apothem = std::sqrt(half_sector / std::tan(half_sector));
    double reach = radius * apothem / std::cos(bent);
    if (roundness > 0) {
        // The same with an outline whose area has no inverse in closed form: Newton's rule, from
        // between the polygon's angle and the disc's, gains all digits in four steps.
        const RoundedSide side{sides, roundness};
        bent += roundness * (within - bent);
        for (int step = 0; step < 4; ++step)
            bent -= (side.twice_area_to(bent) - within) / std::pow(side.reach(bent), 2);
        reach = radius * side.reach(bent);
    }
    const double angle = half_sector + sector * 2.0 * half_sector + bent;
    return {reach * std::sin(angle), reach * std::cos(angle)};
}

}  // namespace backrow
