#include "optics/focus_span.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace backrow::optics {
namespace {

/// k changes by hundredths of a dioptre at most and w by less, so each round gains two digits.
constexpr int rounds = 8;

/// Focus farther away than this many dioptres is as good as at infinity.
constexpr double least_vergence_dpt = 1e-4;

/// The lens in dioptres.
struct Vergences {
    double focal_dpt;
    double best_focus_dpt;  ///< On the axis.
    double residual_dpt;    ///< q
};

Vergences vergences(const Lens& lens) {
    return {.focal_dpt = 1 / m_from_mm(lens.focal_length_mm()),
            .best_focus_dpt = best_focus_dpt(lens, 0),
            .residual_dpt = residual_dpt(lens)};
}

/// τ with the image as high as it is at w.
double tau_dpt(const Lens& lens, const Vergences& own, const PointInView& point, double w_dpt) {
    const double image_height =
        point.field_tangent * mm_from_m(1 / w_dpt) / lens.half_diagonal_mm();
    return own.focal_dpt - 1 / point.axial_m +
           (curvature_dpt(lens.profile(), image_height) + own.best_focus_dpt);
}

double focus_m_from(const Vergences& own, double w_dpt) {
    return 1 / (own.focal_dpt - w_dpt);
}

}  // namespace

double balanced_focus_m(double nearest_m, double farthest_m) noexcept {
    // Blur goes with |1/s − 1/d|, so alike at both ends means the middle of the reciprocals; this
    // form also answers 2 d₁ where the farthest is at infinity.
    return 2 / (1 / nearest_m + 1 / farthest_m);
}

// b ≤ c is (1 − g²) w² − 2 τ w + τ² + q² ≤ 0 with g = c/D, so w lies between the roots
//
//     (τ ± √(g² τ² − (1 − g²) q²)) / (1 − g²),
//
// the lower one written as (τ² + q²)/(τ + √…), which also stands where g ≥ 1 and nothing bounds w
// from above. Focus at infinity is w = 1/f.
std::optional<AxialRange> focus_span(const Lens& lens, const PointInView& point, double limit_mm) {
    const Vergences own = vergences(lens);
    const double g = limit_mm * lens.f_number() / lens.focal_length_mm();
    const double q2 = own.residual_dpt * own.residual_dpt;
    double near_w = own.focal_dpt - 1 / point.axial_m;
    double far_w = near_w;
    for (int round = 0; round < rounds; ++round) {
        const auto root_at = [&](double tau) { return g * g * tau * tau - (1 - g * g) * q2; };
        const double near_tau = tau_dpt(lens, own, point, near_w);
        const double far_tau = tau_dpt(lens, own, point, far_w);
        const double near_root2 = root_at(near_tau), far_root2 = root_at(far_tau);
        if (near_root2 < 0 || far_root2 < 0)
            return std::nullopt;
        near_w = (near_tau * near_tau + q2) / (near_tau + std::sqrt(near_root2));
        far_w = g < 1 ? std::min(own.focal_dpt, (far_tau + std::sqrt(far_root2)) / (1 - g * g))
                      : own.focal_dpt;
    }
    if (near_w >= own.focal_dpt)
        return std::nullopt;
    return AxialRange{.near_m = focus_m_from(own, near_w),
                      .far_m = far_w < own.focal_dpt ? focus_m_from(own, far_w)
                                                     : std::numeric_limits<double>::infinity()};
}

// (b/D)² = (τ/w − 1)² + q²/w² is largest for the least or the greatest τ, whichever is farther from
// w. Where the greatest decides, b falls with w; where the least does, it has its bottom at
// w = τ + q²/τ. So the best w is half way between the two, or that bottom if it lies beyond.
double evenest_focus_m(const Lens& lens, const std::vector<PointInView>& points) {
    const Vergences own = vergences(lens);
    const double farthest_w = own.focal_dpt - least_vergence_dpt;
    double w_dpt = own.focal_dpt - 1 / points.front().axial_m;
    for (int round = 0; round < rounds; ++round) {
        double least = std::numeric_limits<double>::infinity(), greatest = -least;
        for (const PointInView& point : points) {
            const double tau = tau_dpt(lens, own, point, w_dpt);
            least = std::min(least, tau);
            greatest = std::max(greatest, tau);
        }
        const double bottom = least + own.residual_dpt * own.residual_dpt / least;
        w_dpt = std::min(std::max((least + greatest) / 2, bottom), farthest_w);
    }
    return focus_m_from(own, w_dpt);
}

}  // namespace backrow::optics
