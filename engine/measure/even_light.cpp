#include "measure/even_light.h"

#include "measure/edge_anatomy.h"
#include "measure/edge_profile.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace backrow::measure {
namespace {

/// A share of the light that a pixel to the right has more, and one down.
struct Fall {
    double across = 0;
    double down = 0;

    /// Of the light in the middle of the edge.
    [[nodiscard]] double share(double x, double y) const { return 1 + across * x + down * y; }
};

/// The pixels on one side, from the middle of the edge.
struct Side {
    double pixels = 0, x = 0, y = 0, light = 0;  // means
    double xx = 0, xy = 0, yy = 0;               // sums about them
    double x_light = 0, y_light = 0;

    void add(double at_x, double at_y, double its_light) {
        ++pixels;
        const double off_x = at_x - x, off_y = at_y - y;
        x += off_x / pixels;
        y += off_y / pixels;
        light += (its_light - light) / pixels;
        xx += off_x * (at_x - x);
        xy += off_x * (at_y - y);
        yy += off_y * (at_y - y);
        x_light += off_x * (its_light - light);
        y_light += off_y * (its_light - light);
    }
};

/// Least squares of both sides together, and how sure there is any.
struct Fitted {
    Fall fall{};
    double sure = 0;  ///< Standard errors.
};

Fitted fitted(const std::array<Side, 2>& sides, double noise) {
    Fitted found;
    for (int round = 0; round < 3; ++round) {
        double xx = 0, xy = 0, yy = 0, x_light = 0, y_light = 0;
        for (const Side& side : sides) {
            const double light = side.light / found.fall.share(side.x, side.y);
            xx += light * light * side.xx;
            xy += light * light * side.xy;
            yy += light * light * side.yy;
            x_light += light * side.x_light;
            y_light += light * side.y_light;
        }
        const double determinant = xx * yy - xy * xy;
        if (!(determinant > 0))
            return {};
        found.fall = {.across = (yy * x_light - xy * y_light) / determinant,
                      .down = (xx * y_light - xy * x_light) / determinant};
        found.sure = std::sqrt((found.fall.across * x_light + found.fall.down * y_light) /
                               std::max(1e-20, noise));
    }
    return found;
}

/// How far off the edge its blur has ended, and how far off the box does.
double ended_px(const Anatomy& edge) {
    constexpr double widths = 1.75;  // of the rise
    return widths * edge.rise_px + 1;
}
double half_box_px(const Anatomy& edge) {
    return std::min(-edge.first_px, edge.last_px);
}

/// By what lies farther off the edge.
Image<float> evened(const Image<float>& box, const EdgeLine& line, const Anatomy& edge,
                    double from_px) {
    const double beyond_px = std::hypot(1.0, line.lean) * from_px;
    const double middle_y = box.height_px() / 2.0;
    const double middle_x = line.x_px(middle_y);
    std::array<Side, 2> sides;
    for (int y = 0; y < box.height_px(); ++y)
        for (int x = 0; x < box.width_px(); ++x) {
            const double from_edge_px = x + 0.5 - line.x_px(y + 0.5);
            if (std::abs(from_edge_px) > beyond_px)
                sides[from_edge_px > 0 ? 1 : 0].add(x + 0.5 - middle_x, y + 0.5 - middle_y,
                                                    box.at(x, y));
        }
    if (std::ranges::any_of(sides, [](const Side& it) { return it.pixels == 0 || it.light <= 0; }))
        return box;
    const auto [fall, certain] = fitted(sides, edge.noise());
    constexpr double most_fall = 0.5;  // from the middle to a corner
    const double farthest = std::abs(fall.across) * std::max(middle_x, box.width_px() - middle_x) +
                            std::abs(fall.down) * middle_y;
    if (!(certain > sure) || !(farthest < most_fall))
        return box;
    Image<float> lit = box;
    for (int y = 0; y < box.height_px(); ++y)
        for (int x = 0; x < box.width_px(); ++x)
            lit.at(x, y) /= static_cast<float>(fall.share(x + 0.5 - middle_x, y + 0.5 - middle_y));
    return lit;
}

}  // namespace

// Falling light makes a blur look wider than it is, up to the sides of the box. So the fall is
// first taken from what lies farthest out, and again from all that lies beyond the blur that is
// then seen.
Image<float> evenly_lit(const Image<float>& box, const EdgeLine& line) {
    constexpr double outer = 0.7;
    const auto as_it_is = anatomy(edge_profile(box, line));
    if (!as_it_is)
        return box;
    const double farthest_px = outer * half_box_px(*as_it_is);
    const Image<float> roughly =
        evened(box, line, *as_it_is, std::min(ended_px(*as_it_is), farthest_px));
    const auto edge = anatomy(edge_profile(roughly, line));
    if (!edge || ended_px(*edge) > farthest_px)
        return box;
    return evened(box, line, *edge, ended_px(*edge));
}

}  // namespace backrow::measure
