#include "figures/measures/population.h"

#include "figures/measures/anthropometry.h"

#include <cmath>
#include <numbers>

namespace backrow::figures {
namespace {

constexpr double outer_share = 0.95;

double statures_m(std::size_t percentile, Sex sex) {
    switch (sex) {
    case Sex::female:
        return women.stature_m[percentile];
    case Sex::male:
        return men.stature_m[percentile];
    case Sex::neutral:
        break;
    }
    return (women.stature_m[percentile] + men.stature_m[percentile]) / 2;
}

}  // namespace

// Halving, for a share is a rising function of the deviations; beyond ±9 of them no share that a
// double can tell from 0 or 1 is left. Sixty halvings end far below a micrometre of stature.
double deviations_at_share(double share) {
    double low = -9;
    double high = 9;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (std::erfc(-middle / std::numbers::sqrt2) / 2 < share ? low : high) = middle;
    }
    return (low + high) / 2;
}

double stature_m_at_share(double share, Sex sex) {
    const double deviations = deviations_at_share(share) / deviations_at_share(outer_share);
    const double median_m = statures_m(1, sex);
    const double outer_m = statures_m(deviations < 0 ? 0 : 2, sex);
    return median_m + std::abs(deviations) * (outer_m - median_m);
}

}  // namespace backrow::figures
