#include "render/passes/lens_samples.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>

namespace backrow::render {
namespace {

// Which of the points lies nearest: a grid over [−1, 1]² with about one point a cell, searched in
// growing rings.
class NearestPoint {
public:
    explicit NearestPoint(const std::vector<Point2>& points)
        : points_{points}, side_{std::max(
                               1, static_cast<int>(std::sqrt(static_cast<double>(points.size()))))},
          cells_(static_cast<std::size_t>(side_) * static_cast<std::size_t>(side_)) {
        for (std::size_t i = 0; i < points.size(); ++i)
            cells_[cell(column(points[i].x), column(points[i].y))].push_back(static_cast<int>(i));
    }

    [[nodiscard]] int to(const Point2& wanted) const {
        int best = 0;
        double best_distance2 = std::numeric_limits<double>::infinity();
        const int at_x = column(wanted.x);
        const int at_y = column(wanted.y);
        const double cell_size = 2.0 / side_;
        for (int ring = 0; ring < side_; ++ring) {
            // Everything outside the rings searched so far is at least this far away.
            const double searched = (ring - 1) * cell_size;
            if (searched > 0 && best_distance2 <= searched * searched)
                break;
            for (int y = std::max(0, at_y - ring); y <= std::min(side_ - 1, at_y + ring); ++y)
                for (int x = std::max(0, at_x - ring); x <= std::min(side_ - 1, at_x + ring); ++x)
                    if (std::max(std::abs(x - at_x), std::abs(y - at_y)) == ring)
                        for (const int i : cells_[cell(x, y)]) {
                            const Point2& point = points_[static_cast<std::size_t>(i)];
                            const double dx = point.x - wanted.x;
                            const double dy = point.y - wanted.y;
                            const double distance2 = dx * dx + dy * dy;
                            if (distance2 < best_distance2) {
                                best_distance2 = distance2;
                                best = i;
                            }
                        }
        }
        return best;
    }

private:
    [[nodiscard]] int column(double coordinate) const {
        return std::clamp(static_cast<int>((coordinate + 1.0) * 0.5 * side_), 0, side_ - 1);
    }
    [[nodiscard]] std::size_t cell(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(side_) +
               static_cast<std::size_t>(x);
    }

    const std::vector<Point2>& points_;
    int side_;
    std::vector<std::vector<int>> cells_;
};

// Of 1, 1.2, 1.4, 1.7 and 1.8 the one with the smallest errors.
constexpr double cell_width = 1.4;

// Where in the texel the pass of this turn of the spiral looks, −½ … ½. What is little out of focus
// is blurred by opening and texel together, so their points must be even taken together: places
// that follow the passes, however even by themselves, go along with the opening's here and there,
// and left an edge a third too sharp or too soft (128 passes, f/1.4). Of 8,500 pairs of steps by
// lot these have the least error in the contrast of edges, over 8 to 256 passes and doublings.
Point2 place_in_texel(std::size_t turn) noexcept {
    constexpr double across = 0.828640, up = 0.560302;
    const double x = across * static_cast<double>(turn), y = up * static_cast<double>(turn);
    return {x - std::round(x), y - std::round(y)};
}

LensSample sample_at(const Point2& in_disc, const optics::Opening& opening, std::size_t turn) {
    const Point2 pupil = opening.blades == 0
                             ? in_disc
                             : polygon_from_disc(in_disc, opening.blades, opening.roundness);
    const Point2 in_texel = place_in_texel(turn);
    return {static_cast<float>(pupil.x),
            static_cast<float>(pupil.y),
            static_cast<float>(in_texel.x),
            static_cast<float>(in_texel.y),
            0,
            0};
}

}  // namespace

double cell_radius_of(int passes) noexcept {
    return cell_width / std::sqrt(static_cast<double>(passes));
}

double cells_reach(int passes) noexcept {
    constexpr double kernel_radii = 1.3228757;  // √7/2, as cells.glsl has it
    return kernel_radii * cell_radius_of(passes);
}

namespace {

// Fine points for the block that begins after so many: later blocks are turned, so that they come
// to lie between.
std::vector<Point2> fine_points(int count, std::size_t after) {
    std::vector<Point2> points = disc_points(count);
    const double turn = static_cast<double>(after) / count * std::numbers::pi * std::numbers::phi;
    for (Point2& point : points)
        point = turned(point, turn);
    return points;
}

// Fine samples are sorted by the coarse sample of their block whose cell they lie in (the one
// nearest), by counting.
void append_block(LensSamples& samples, const std::vector<Point2>& coarse, int fine_samples,
                  const optics::Opening& opening, float drawn_in) {
    const std::size_t before = samples.coarse.size();
    const std::vector<int> turns = disc_point_turns(static_cast<int>(coarse.size()));
    for (std::size_t i = 0; i < coarse.size(); ++i) {
        const auto turn = static_cast<std::size_t>(turns[i]);
        samples.coarse.push_back(sample_at(coarse[i], opening, before + turn));
        samples.coarse.back().drawn_in = drawn_in;
    }
    if (fine_samples <= static_cast<int>(coarse.size())) {
        for (std::size_t i = before; i < samples.coarse.size(); ++i) {
            samples.fine.push_back(samples.coarse[i]);
            samples.fine.back().drawn_in = 0;
            samples.first_fine.push_back(static_cast<int>(samples.fine.size()));
        }
        return;
    }
    const std::vector<Point2> fine = fine_points(fine_samples, samples.fine.size());
    const NearestPoint nearest{coarse};
    std::vector<std::size_t> owner(fine.size());
    std::vector<int> first(coarse.size() + 1, 0);
    for (std::size_t i = 0; i < fine.size(); ++i) {
        owner[i] = static_cast<std::size_t>(nearest.to(fine[i]));
        ++first[owner[i] + 1];
    }
    for (std::size_t i = 1; i < first.size(); ++i) {
        first[i] += first[i - 1];
        samples.first_fine.push_back(static_cast<int>(samples.fine.size()) + first[i]);
    }
    const std::size_t base = samples.fine.size();
    samples.fine.resize(base + fine.size());
    for (std::size_t i = 0; i < fine.size(); ++i)
        samples.fine[base + static_cast<std::size_t>(first[owner[i]]++)] =
            sample_at(fine[i], opening, i);
}

}  // namespace

// The first block is drawn in by as much as its cells spread it: r² of cells and samples together
// is the disc's. Twice as many samples have cells half as large, and half of the samples are drawn
// in: further blocks need not be.
LensSamples make_lens_samples(int passes, int fine_samples, const optics::Opening& opening) {
    LensSamples samples;
    samples.first_fine = {0};
    samples.cell_radius = cell_radius_of(passes);
    append_block(samples, disc_points(passes), fine_samples, opening,
                 static_cast<float>(std::min(1.0, std::pow(samples.cell_radius, 2))));
    return samples;
}

LensSamples first_of(const LensSamples& samples, int passes) {
    const auto count = std::min(static_cast<std::ptrdiff_t>(passes),
                                static_cast<std::ptrdiff_t>(samples.coarse.size()));
    const auto begin_of = [](const auto& all, std::ptrdiff_t so_many) {
        return std::vector(all.begin(), all.begin() + so_many);
    };
    const int fine = samples.first_fine[static_cast<std::size_t>(count)];
    LensSamples first{.coarse = begin_of(samples.coarse, count),
                      .fine = begin_of(samples.fine, fine),
                      .first_fine = begin_of(samples.first_fine, count + 1),
                      .cell_radius = samples.cell_radius,
                      .looks = samples.looks,
                      .enough_db = samples.enough_db,
                      .enough_in_worst_square_db = samples.enough_in_worst_square_db,
                      .spread_texels = samples.spread_texels};
    std::erase_if(first.looks, [&](int look) { return look > passes; });
    return first;
}

void double_up_to(LensSamples& samples, int most, const optics::Opening& opening) {
    std::vector<Point2> points = disc_points(static_cast<int>(samples.coarse.size()));
    while (2 * static_cast<int>(points.size()) <= most) {
        const std::vector<Point2> between = disc_points_between(points);
        append_block(samples, between, static_cast<int>(samples.fine.size()), opening, 0.0f);
        points.insert(points.end(), between.begin(), between.end());
    }
}

}  // namespace backrow::render
