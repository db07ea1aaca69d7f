#pragma once

// Integrals as sums over few points.

#include <vector>

namespace backrow::optics {

struct QuadraturePoint {
    double at;      ///< 0 … 1
    double weight;  ///< Of all 1.
};

/// Gauss and Legendre's points over [0, 1], exact for polynomials of degree 2·count − 1.
///
/// count  ≥ 1
[[nodiscard]] std::vector<QuadraturePoint> gauss_legendre(int count);

}  // namespace backrow::optics
