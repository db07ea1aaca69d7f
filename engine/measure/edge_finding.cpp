#include "measure/edge_finding.h"

#include "measure/transposed.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

namespace backrow::measure {
namespace {

// Looked for a degree beyond what can be measured: a coarse look does not know it exactly.
constexpr double least_lean_deg = 1.5;
constexpr double most_lean_deg = 21;
constexpr int shortest_px = 32;
constexpr int searched_side_px = 1600;  // the picture is reduced to this before it is searched
constexpr int farthest_px = 160;        // from an edge, that is looked at

/// Each pixel the mean of by × by; what is left over at the right and below is left out.
Image<float> reduced(const Image<float>& picture, int by) {
    Image<float> small(picture.width_px() / by, picture.height_px() / by);
    for (int y = 0; y < small.height_px(); ++y)
        for (int x = 0; x < small.width_px(); ++x) {
            float sum = 0;
            for (int down = 0; down < by; ++down)
                for (int across = 0; across < by; ++across)
                    sum += picture.at(x * by + across, y * by + down);
            small.at(x, y) = sum / static_cast<float>(by * by);
        }
    return small;
}

struct Slope {
    float strength = 0;  ///< ± as it rises to the right; 0 where it is no part of a wanted edge.
    float lean_rad = 0;
};

/// Slopes over five by five pixels, as Scharr weighs them, where they lean as wanted.
Image<Slope> slopes_of(const Image<float>& picture) {
    Image<Slope> slopes(picture.width_px(), picture.height_px());
    std::vector<float> strengths;
    const auto at = [&](int x, int y) { return picture.at(x, y); };
    for (int y = 2; y + 2 < picture.height_px(); ++y)
        for (int x = 2; x + 2 < picture.width_px(); ++x) {
            constexpr float weights[5] = {1, 4, 6, 4, 1};
            float across = 0;
            float down = 0;
            for (int i = -2; i <= 2; ++i) {
                const float weight = weights[i + 2] / 16;
                across += weight *
                          (at(x + 2, y + i) + 2 * at(x + 1, y + i) - 2 * at(x - 1, y + i) -
                           at(x - 2, y + i)) /
                          8;
                down += weight *
                        (at(x + i, y + 2) + 2 * at(x + i, y + 1) - 2 * at(x + i, y - 1) -
                         at(x + i, y - 2)) /
                        8;
            }
            strengths.push_back(std::hypot(across, down));
            const float lean = std::atan2(-down, across);
            const float folded = across < 0 ? std::atan2(down, -across) : lean;
            const double lean_deg = deg_from_rad(std::abs(folded));
            if (lean_deg <= most_lean_deg + 5)
                slopes.at(x, y) = {std::copysign(std::hypot(across, down), across), folded};
        }
    if (strengths.empty())
        return slopes;
    // The flattest quarter shows what noise does; of that it is three quarters of the deviation.
    const auto quarter = strengths.begin() + static_cast<std::ptrdiff_t>(strengths.size() / 4);
    std::nth_element(strengths.begin(), quarter, strengths.end());
    constexpr float least_strength = 0.004f;
    const float least = std::max(least_strength, 6 * *quarter);
    for (Slope& slope : slopes.pixels())
        if (std::abs(slope.strength) < least)
            slope = {};
    return slopes;
}

/// x = at_px + lean · y from one row to another.
struct Stretch {
    double at_px = 0;
    double lean = 0;
    double from_y_px = 0;
    double to_y_px = 0;

    [[nodiscard]] double x_px(double y_px) const { return at_px + lean * y_px; }
};

/// The pixels joined to one, whose slopes lean alike; they are taken out of the slopes.
std::vector<int> grown(Image<Slope>& slopes, int seed) {
    constexpr double alike_rad = 0.14;  // 8°
    const int width = slopes.width_px();
    const auto pixel = [&](int index) -> Slope& {
        return slopes.pixels()[static_cast<std::size_t>(index)];
    };
    const bool rises = pixel(seed).strength > 0;
    constexpr float ridge = 0.3f;  // of the strength of the first: not down to where a blur begins
    const float least = ridge * std::abs(pixel(seed).strength);
    double lean_sum = 0;
    std::vector<int> region{seed};
    std::vector<double> leans{pixel(seed).lean_rad};
    lean_sum = leans.front();
    pixel(seed).strength = 0;
    for (std::size_t next = 0; next < region.size(); ++next)
        for (int down = -1; down <= 1; ++down)
            for (int across = -1; across <= 1; ++across) {
                const int index = region[next] + down * width + across;
                if (index < 0 || index >= width * slopes.height_px())
                    continue;
                Slope& slope = pixel(index);
                const double mean = lean_sum / static_cast<double>(region.size());
                if (slope.strength == 0 || std::abs(slope.strength) < least ||
                    (slope.strength > 0) != rises || std::abs(slope.lean_rad - mean) > alike_rad)
                    continue;
                slope.strength = 0;
                lean_sum += slope.lean_rad;
                region.push_back(index);
            }
    return region;
}

/// The line along a region of equal pixels, if it is long and thin and leans as wanted.
std::optional<Stretch> stretch_of(const std::vector<int>& region, int width, int by) {
    const auto count = static_cast<double>(region.size());
    double mean_x = 0;
    double mean_y = 0;
    int first_y = region.front() / width;
    int last_y = first_y;
    for (const int index : region) {
        const int y = index / width;
        mean_x += (index % width + 0.5) / count;
        mean_y += (y + 0.5) / count;
        first_y = std::min(first_y, y);
        last_y = std::max(last_y, y);
    }
    if ((last_y - first_y + 1) * by < shortest_px)
        return std::nullopt;
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (const int index : region) {
        const int row = index / width;
        const double x = index % width + 0.5 - mean_x;
        const double y = row + 0.5 - mean_y;
        xx += x * x;
        xy += x * y;
        yy += y * y;
    }
    const double lean = xy / yy;
    const double lean_deg = deg_from_rad(std::atan(std::abs(lean)));
    constexpr double thin = 0.2;
    if (lean_deg < least_lean_deg || lean_deg > most_lean_deg ||
        std::sqrt(std::max(0.0, xx - lean * xy)) > thin * std::sqrt(yy))
        return std::nullopt;
    return Stretch{.at_px = (mean_x - lean * mean_y) * by,
                   .lean = lean,
                   .from_y_px = 1.0 * first_y * by,
                   .to_y_px = (last_y + 1.0) * by};
}

std::vector<Stretch> stretches_of(const Image<float>& picture, int by) {
    const Image<float> small = by == 1 ? picture : reduced(picture, by);
    if (small.width_px() < 8 || small.height_px() < 8)
        return {};
    Image<Slope> slopes = slopes_of(small);
    std::vector<int> seeds;
    for (std::size_t i = 0; i < slopes.pixels().size(); ++i)
        if (slopes.pixels()[i].strength != 0)
            seeds.push_back(static_cast<int>(i));
    std::vector<float> strengths;
    strengths.reserve(slopes.pixels().size());
    for (const Slope& slope : slopes.pixels())
        strengths.push_back(std::abs(slope.strength));
    std::ranges::stable_sort(seeds, std::greater{},
                             [&](int seed) { return strengths[static_cast<std::size_t>(seed)]; });
    std::vector<Stretch> stretches;
    for (const int seed : seeds) {
        if (slopes.pixels()[static_cast<std::size_t>(seed)].strength == 0)
            continue;
        if (const auto stretch = stretch_of(grown(slopes, seed), slopes.width_px(), by))
            stretches.push_back(*stretch);
    }
    return stretches;
}

/// What a stretch has beside it.
struct Sides {
    double step = 0;
    int blur_left_px = 0;  ///< Within it the light changes, outward from the line.
    int blur_right_px = 0;
    int even_left_px = 0;  ///< So far out it is even.
    int even_right_px = 0;
};

/// The mean light at whole distances from −farthest to +farthest along x; none outside the picture.
std::vector<std::optional<double>> across(const Image<float>& picture, const Stretch& edge) {
    std::vector<std::optional<double>> profile;
    const int first_y = static_cast<int>(std::ceil(edge.from_y_px));
    const int last_y = static_cast<int>(std::floor(edge.to_y_px)) - 1;
    for (int off = -farthest_px; off <= farthest_px; ++off) {
        double sum = 0;
        bool inside = last_y >= first_y;
        for (int y = first_y; y <= last_y && inside; ++y) {
            const double x = edge.x_px(y + 0.5) + off - 0.5;
            const double left = std::floor(x);
            inside = left >= 0 && left + 1 < picture.width_px();
            if (!inside)
                break;
            const auto column = static_cast<int>(left);
            sum += picture.at(column, y) * (left + 1 - x) + picture.at(column + 1, y) * (x - left);
        }
        profile.push_back(inside ? std::optional{sum / (last_y - first_y + 1)} : std::nullopt);
    }
    return profile;
}

std::optional<Sides> sides_of(const Image<float>& picture, const Stretch& edge) {
    const auto profile = across(picture, edge);
    const auto at = [&](int off) { return profile[static_cast<std::size_t>(off + farthest_px)]; };
    // Outward the light changes less and less until the blur ends.
    const auto slope_at = [&](int off) -> std::optional<double> {
        const auto before = at(off - 2);
        const auto after = at(off + 2);
        return before && after ? std::optional{(*after - *before) / 4} : std::nullopt;
    };
    int steepest = 0;
    constexpr int line_off_px = 8;
    for (int off = -line_off_px; off <= line_off_px; ++off) {
        const auto here = slope_at(off);
        const auto most = slope_at(steepest);
        if (here && (!most || std::abs(*here) > std::abs(*most)))
            steepest = off;
    }
    const auto most = slope_at(steepest);
    if (!most || *most == 0)
        return std::nullopt;
    constexpr double ended = 0.02;  // of the steepest slope
    const auto blur_end = [&](int outward) -> std::optional<int> {
        for (int off = steepest + outward; std::abs(off) < farthest_px - 2; off += outward) {
            const auto slope = slope_at(off);
            if (!slope)
                return std::nullopt;
            if (*slope / *most < ended)
                return off;
        }
        return std::nullopt;
    };
    const auto left = blur_end(-1);
    const auto right = blur_end(1);
    if (!left || !right)
        return std::nullopt;
    Sides sides{.step = std::abs(*at(*right) - *at(*left)),
                .blur_left_px = -*left,
                .blur_right_px = *right};
    constexpr double least_step = 0.02;
    if (sides.step < least_step)
        return std::nullopt;
    constexpr double even = 0.025;  // of the step
    const auto even_end = [&](int from, int outward) {
        int off = from;
        double mean = 0;
        int count = 0;
        while (std::abs(off) <= farthest_px) {
            const auto light = at(off);
            if (!light || (count > 0 && std::abs(*light - mean) > even * sides.step))
                break;
            ++count;
            mean += (*light - mean) / count;
            off += outward;
        }
        return std::abs(off) - 1;
    };
    sides.even_left_px = even_end(*left, -1);
    sides.even_right_px = even_end(*right, 1);
    return sides;
}

/// The longest run of rows that have the step where the line has it.
Stretch with_its_step(const Image<float>& picture, const Stretch& edge, const Sides& sides) {
    constexpr double most_of_it = 0.85;
    const auto has_step = [&](int y) {
        const auto light = [&](double from) {
            double sum = 0;
            constexpr int breadth_px = 5;
            const double x = edge.x_px(y + 0.5) + from;
            const int first = static_cast<int>(std::floor(x));
            if (first < 0 || first + breadth_px > picture.width_px())
                return std::optional<double>{};
            for (int i = 0; i < breadth_px; ++i)
                sum += picture.at(first + i, y);
            return std::optional{sum / breadth_px};
        };
        const auto left = light(-sides.blur_left_px - 5);
        const auto right = light(sides.blur_right_px);
        return left && right && std::abs(*right - *left) > most_of_it * sides.step;
    };
    Stretch best = edge;
    best.to_y_px = best.from_y_px;
    int start = static_cast<int>(edge.from_y_px);
    const int end = std::min(picture.height_px(), static_cast<int>(edge.to_y_px));
    for (int y = start; y <= end; ++y)
        if (y == end || !has_step(y)) {
            if (y - start > best.to_y_px - best.from_y_px) {
                best.from_y_px = start;
                best.to_y_px = y;
            }
            start = y + 1;
        }
    return best;
}

struct Proposal {
    PixelBox box;
    double clarity = 0;
};

void add_boxes(const Image<float>& picture, Stretch edge, std::vector<Proposal>& proposals) {
    auto sides = sides_of(picture, edge);
    if (!sides)
        return;
    edge = with_its_step(picture, edge, *sides);
    // As much beside the edge as its blur needs, and more of short-blurred ones, for plateaus
    // without noise. The ends stay clear of the box of the next side, round the corner.
    const double length_before_px = edge.to_y_px - edge.from_y_px;
    const auto breadth = [&](int blur_px) {
        return std::max(1.5 * blur_px + 6, std::min(3.0 * blur_px + 8, length_before_px / 5));
    };
    const double left_breadth_px = breadth(sides->blur_left_px);
    const double right_breadth_px = breadth(sides->blur_right_px);
    const double trim_px =
        std::min(std::max(left_breadth_px, right_breadth_px), length_before_px / 4);
    edge.from_y_px += trim_px;
    edge.to_y_px -= trim_px;
    if (edge.to_y_px - edge.from_y_px < shortest_px)
        return;
    sides = sides_of(picture, edge);
    if (!sides)
        return;
    // At its ends a slanted edge lies nearer to one side of the box: all of that must be even, too.
    const auto needed = [](int blur_px) { return 1.5 * blur_px + 4; };
    const double left_room_px = sides->even_left_px - needed(sides->blur_left_px);
    const double right_room_px = sides->even_right_px - needed(sides->blur_right_px);
    const double lean = std::abs(edge.lean);
    const double room_px = std::min(left_room_px, right_room_px);
    const double most_length_px = std::min<double>(longest_edge_px, room_px / lean);
    const double length_px = edge.to_y_px - edge.from_y_px;
    if (most_length_px < shortest_px || lean * std::min(length_px, most_length_px) < 1)
        return;
    const double pieces = std::ceil(length_px / most_length_px);
    for (int piece = 0; piece < pieces; ++piece) {
        const double from_y = edge.from_y_px + length_px * piece / pieces;
        const double to_y = edge.from_y_px + length_px * (piece + 1) / pieces;
        const double low_x = std::min(edge.x_px(from_y), edge.x_px(to_y));
        const double high_x = std::max(edge.x_px(from_y), edge.x_px(to_y));
        const double shift_px = high_x - low_x;
        const int left = static_cast<int>(
            std::ceil(low_x - std::min(sides->even_left_px - shift_px, left_breadth_px)));
        const int right = static_cast<int>(
            std::floor(high_x + std::min(sides->even_right_px - shift_px, right_breadth_px)));
        const int top = static_cast<int>(std::ceil(from_y));
        const PixelBox box{left, top, right - left, static_cast<int>(std::floor(to_y)) - top};
        if (lies_within(box, picture.width_px(), picture.height_px()))
            proposals.push_back({box, sides->step * std::sqrt(to_y - from_y)});
    }
}

std::vector<Proposal> upright_edges(const Image<float>& picture) {
    std::vector<Proposal> proposals;
    const int longest = std::max(picture.width_px(), picture.height_px());
    const int by = (longest + searched_side_px - 1) / searched_side_px;
    // Once more much coarser, where broad blurs are edges still.
    for (const int coarser : {by, 4 * by})
        for (const Stretch& edge : stretches_of(picture, coarser))
            add_boxes(picture, edge, proposals);
    return proposals;
}

}  // namespace

std::vector<PixelBox> find_edges(const Image<float>& picture, std::size_t most_boxes) {
    std::vector<Proposal> proposals = upright_edges(picture);
    for (const Proposal& level : upright_edges(transposed(picture)))
        proposals.push_back({transposed(level.box), level.clarity});
    std::ranges::stable_sort(proposals, std::greater{}, &Proposal::clarity);
    std::vector<PixelBox> boxes;
    for (const Proposal& proposal : proposals)
        if (boxes.size() < most_boxes && std::ranges::none_of(boxes, [&](const PixelBox& taken) {
                return overlap(taken, proposal.box);
            }))
            boxes.push_back(proposal.box);
    return boxes;
}

}  // namespace backrow::measure
