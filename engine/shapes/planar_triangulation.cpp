#include "shapes/planar_triangulation.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <numeric>
#include <utility>

namespace backrow::shapes {
namespace {

using glm::dvec2;
using Triangle = std::array<std::uint32_t, 3>;

struct Circled {
    Triangle corners;
    dvec2 centre;
    double radius_squared;
};

double doubled_area(const dvec2& a, const dvec2& b, const dvec2& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

Circled circled(const std::vector<dvec2>& p, Triangle t) {
    if (doubled_area(p[t[0]], p[t[1]], p[t[2]]) < 0)
        std::swap(t[1], t[2]);
    const dvec2 b = p[t[1]] - p[t[0]], c = p[t[2]] - p[t[0]];
    const double d = 2 * (b.x * c.y - b.y * c.x);
    const double bb = glm::dot(b, b), cc = glm::dot(c, c);
    const dvec2 off{(c.y * bb - b.y * cc) / d, (b.x * cc - c.x * bb) / d};
    return {t, p[t[0]] + off, glm::dot(off, off)};
}

}  // namespace

std::vector<Triangle> planar_triangulation(const std::vector<dvec2>& given) {
    std::vector<dvec2> p = given;
    const auto count = static_cast<std::uint32_t>(given.size());
    dvec2 least = p.front(), most = p.front();
    for (const dvec2& at : p) {
        least = glm::min(least, at);
        most = glm::max(most, at);
    }
    // A triangle so large that its corners look like directions from any circle in the points.
    const double far = 1e3 * std::max(most.x - least.x, most.y - least.y);
    const dvec2 middle = (least + most) / 2.0;
    p.push_back(middle + dvec2{-far, -far});
    p.push_back(middle + dvec2{far, -far});
    p.push_back(middle + dvec2{0, far});

    std::vector<std::uint32_t> by_x(count);
    std::iota(by_x.begin(), by_x.end(), 0u);
    std::sort(by_x.begin(), by_x.end(),
              [&](auto a, auto b) { return p[a].x != p[b].x ? p[a].x < p[b].x : p[a].y < p[b].y; });

    std::vector<Circled> open{circled(p, {count, count + 1, count + 2})};
    std::vector<Triangle> done;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> edges;
    for (const std::uint32_t next : by_x) {
        edges.clear();
        for (std::size_t i = 0; i < open.size();) {
            const dvec2 off = p[next] - open[i].centre;
            const bool behind = off.x > 0 && off.x * off.x > open[i].radius_squared;
            const bool circled_in = glm::dot(off, off) < open[i].radius_squared;
            if (!behind && !circled_in) {
                ++i;
                continue;
            }
            const Triangle t = open[i].corners;
            if (behind)
                done.push_back(t);
            else
                for (std::size_t e = 0; e < 3; ++e)
                    edges.emplace_back(t[e], t[(e + 1) % 3]);
            open[i] = open.back();
            open.pop_back();
        }
        // Edges met twice lie inside the hole; those met once bound it.
        for (std::size_t i = 0; i < edges.size(); ++i) {
            const std::pair back{edges[i].second, edges[i].first};
            if (std::find(edges.begin(), edges.end(), back) == edges.end())
                open.push_back(circled(p, {edges[i].first, edges[i].second, next}));
        }
    }
    for (const Circled& t : open)
        done.push_back(t.corners);
    std::erase_if(
        done, [&](const Triangle& t) { return t[0] >= count || t[1] >= count || t[2] >= count; });
    return done;
}

}  // namespace backrow::shapes
