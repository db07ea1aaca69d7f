#include "optics/blur/focus_span.h"

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

double focal_dpt(const Lens& lens) {
    return 1 / m_from_mm(lens.focal_length_mm());
}

/// A point as the focus meets it, with the image as high as it is at w.
struct Met {
    double tau_dpt;
    double q_dpt;
    double spread;
};

Met met(const Lens& lens, const PointInView& point, double w_dpt) {
    const double image_height =
        point.field_tangent * mm_from_m(1 / w_dpt) / lens.half_diagonal_mm();
    const Spot spot = spot_at(lens, image_height);
    return {.tau_dpt = focal_dpt(lens) - 1 / point.axial_m + spot.best_focus_dpt,
            .q_dpt = spot.residual_dpt,
            .spread = spot.spread};
}

double focus_m_from(const Lens& lens, double w_dpt) {
    return 1 / (focal_dpt(lens) - w_dpt);
}

/// Whether the spots of this lens differ in nothing but their best focus.
bool is_alike_all_over(const LensProfile& profile) {
    return profile.astigmatism_dpt == 0 && profile.coma_dpt == 0 && profile.vignetting == 0;
}

// Of alike spots (b/D)² = (τ/w − 1)² + q²/w² is largest for the least or the greatest τ, whichever
// is farther from w. Where the greatest decides, b falls with w; where the least does, it has its
// bottom at w = τ + q²/τ. So the best w is half way between the two, or that bottom if it lies
// beyond.
double evenest_of_alike_dpt(const std::vector<Met>& points) {
    const auto [least, greatest] = std::ranges::minmax(points, {}, &Met::tau_dpt);
    const double bottom = least.tau_dpt + least.q_dpt * least.q_dpt / least.tau_dpt;
    return std::max((least.tau_dpt + greatest.tau_dpt) / 2, bottom);
}

// Of others (b/D)² = σ² (τ z − 1)² + q² z² with z = 1/w: parabolas open upwards, and so is the
// largest of them. Its bottom is where its slope changes sign, between those of the single ones.
double evenest_of_others_dpt(const std::vector<Met>& points) {
    double low = std::numeric_limits<double>::infinity(), high = 0;
    for (const Met& point : points) {
        const double t = point.spread * point.tau_dpt;
        const double bottom = point.spread * t / (t * t + point.q_dpt * point.q_dpt);
        low = std::min(low, bottom);
        high = std::max(high, bottom);
    }
    constexpr int halvings = 40;
    for (int i = 0; i < halvings && low < high; ++i) {
        const double z = (low + high) / 2;
        double largest = -1, slope = 0;
        for (const Met& point : points) {
            const double off = point.spread * (point.tau_dpt * z - 1);
            const double left = point.q_dpt * z;
            const double square = off * off + left * left;
            if (square > largest) {
                largest = square;
                slope = off * point.spread * point.tau_dpt + left * point.q_dpt;
            }
        }
        (slope > 0 ? high : low) = z;
    }
    return 2 / (low + high);
}

}  // namespace

double balanced_focus_m(double nearest_m, double farthest_m) noexcept {
    // Blur goes with |1/s − 1/d|, so alike at both ends means the middle of the reciprocals; this
    // form also answers 2 d₁ where the farthest is at infinity.
    return 2 / (1 / nearest_m + 1 / farthest_m);
}

// b ≤ c is σ² (w − τ)² + q² ≤ g² w² with g = c/D; with q and g for q/σ and g/σ,
// (1 − g²) w² − 2 τ w + τ² + q² ≤ 0, so w lies between the roots
//
//     (τ ± √(g² τ² − (1 − g²) q²)) / (1 − g²),
//
// the lower one written as (τ² + q²)/(τ + √…), which also stands where g ≥ 1 and nothing bounds w
// from above. Focus at infinity is w = 1/f.
std::optional<AxialRange> focus_span(const Lens& lens, const PointInView& point, double limit_mm) {
    const double focal = focal_dpt(lens);
    double near_w = focal - 1 / point.axial_m;
    double far_w = near_w;
    for (int round = 0; round < rounds; ++round) {
        const Met near = met(lens, point, near_w), far = met(lens, point, far_w);
        const auto g2_of = [&](const Met& at) {
            const double g = limit_mm * lens.f_number() / lens.focal_length_mm() / at.spread;
            return g * g;
        };
        const auto q2_of = [](const Met& at) {
            return at.q_dpt * at.q_dpt / (at.spread * at.spread);
        };
        const auto root_of = [&](const Met& at) {
            return g2_of(at) * at.tau_dpt * at.tau_dpt - (1 - g2_of(at)) * q2_of(at);
        };
        const double near_root2 = root_of(near), far_root2 = root_of(far);
        if (near_root2 < 0 || far_root2 < 0)
            return std::nullopt;
        near_w =
            (near.tau_dpt * near.tau_dpt + q2_of(near)) / (near.tau_dpt + std::sqrt(near_root2));
        far_w = g2_of(far) < 1
                    ? std::min(focal, (far.tau_dpt + std::sqrt(far_root2)) / (1 - g2_of(far)))
                    : focal;
    }
    if (near_w >= focal)
        return std::nullopt;
    return AxialRange{.near_m = focus_m_from(lens, near_w),
                      .far_m = far_w < focal ? focus_m_from(lens, far_w)
                                             : std::numeric_limits<double>::infinity()};
}

double evenest_focus_m(const Lens& lens, const std::vector<PointInView>& points) {
    const double focal = focal_dpt(lens);
    const double farthest_w = focal - least_vergence_dpt;
    const bool alike = is_alike_all_over(lens.profile());
    double w_dpt = focal - 1 / points.front().axial_m;
    std::vector<Met> seen(points.size());
    for (int round = 0; round < rounds; ++round) {
        std::ranges::transform(points, seen.begin(),
                               [&](const PointInView& point) { return met(lens, point, w_dpt); });
        w_dpt =
            std::min(alike ? evenest_of_alike_dpt(seen) : evenest_of_others_dpt(seen), farthest_w);
    }
    return focus_m_from(lens, w_dpt);
}

}  // namespace backrow::optics
