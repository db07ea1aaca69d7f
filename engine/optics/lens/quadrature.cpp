#include "optics/lens/quadrature.h"

#include <cmath>
#include <numbers>

namespace backrow::optics {

// The roots of Legendre's polynomial by Newton's steps, each begun near enough to find its own.
std::vector<QuadraturePoint> gauss_legendre(int count) {
    std::vector<QuadraturePoint> points;
    for (int i = count; i > 0; --i) {
        double x = std::cos(std::numbers::pi * (i - 0.25) / (count + 0.5));
        double slope = 1;
        constexpr int steps = 8;
        for (int step = 0; step < steps; ++step) {
            double before = 1, here = x;
            for (int degree = 2; degree <= count; ++degree) {
                const double next = ((2 * degree - 1) * x * here - (degree - 1) * before) / degree;
                before = here;
                here = next;
            }
            slope = count * (x * here - before) / (x * x - 1);
            x -= here / slope;
        }
        points.push_back({.at = (1 + x) / 2, .weight = 1 / ((1 - x * x) * slope * slope)});
    }
    return points;
}

}  // namespace backrow::optics
