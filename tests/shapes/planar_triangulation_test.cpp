#include "shapes/planar_triangulation.h"

#include <catch2/catch.hpp>
#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <cmath>
#include <cstddef>
#include <vector>

using namespace backrow::shapes;
using glm::dvec2;

namespace {

double doubled_area(const dvec2& a, const dvec2& b, const dvec2& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Corners of the unit square and points strewn inside it.
std::vector<dvec2> strewn(int count) {
    std::vector<dvec2> points{{0, 0}, {1, 0}, {1, 1}, {0, 1}};
    for (int i = 1; i <= count; ++i)
        points.push_back({glm::fract(i * 0.7548776662466927), glm::fract(i * 0.5698402909980532)});
    return points;
}

}  // namespace

// Areas are sums of a few hundred doubles near one.
TEST_CASE("the triangles cover the hull once, counter-clockwise", "[shapes][property]") {
    const std::vector<dvec2> points = strewn(200);
    double area = 0;
    for (const auto& t : planar_triangulation(points)) {
        const double own = doubled_area(points[t[0]], points[t[1]], points[t[2]]) / 2;
        CHECK(own > 0);
        area += own;
    }
    CHECK(area == Approx(1.0).margin(1e-9));
    // Euler: n points, h of them on the hull, make 2n − h − 2 triangles.
    CHECK(planar_triangulation(points).size() == 2 * points.size() - 4 - 2);
}

TEST_CASE("no point lies inside the circle through a triangle's corners", "[shapes][property]") {
    const std::vector<dvec2> points = strewn(120);
    std::size_t inside = 0;
    for (const auto& t : planar_triangulation(points))
        for (std::size_t i = 0; i < points.size(); ++i) {
            if (i == t[0] || i == t[1] || i == t[2])
                continue;
            const dvec2 a = points[t[0]] - points[i], b = points[t[1]] - points[i],
                        c = points[t[2]] - points[i];
            const double determinant = glm::dot(a, a) * (b.x * c.y - c.x * b.y) -
                                       glm::dot(b, b) * (a.x * c.y - c.x * a.y) +
                                       glm::dot(c, c) * (a.x * b.y - b.x * a.y);
            inside += determinant > 1e-12 ? 1 : 0;
        }
    CHECK(inside == 0);
}
