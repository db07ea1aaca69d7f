#include "figures/clothes/folds.h"

#include "figures/body/smooth_curve.h"
#include "figures/clothes/garments.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace backrow::figures {
namespace {

using glm::dvec3;
constexpr double turn = 2 * std::numbers::pi;

/// Round ridges and sharp valleys, as in cloth; one of each in every turn, 0 on average.
double crumpled(double angle_rad) {
    return std::abs(std::sin(angle_rad / 2)) - 2 / std::numbers::pi;
}

double bump(double x) {
    return std::exp(-x * x);
}

}  // namespace

double TrunkFolds::out_m(double up_m, double around_rad) const {
    const double u = stature_m;
    const double t = up_m / shoulder_up_m;
    const double phase = look.fold_phase_rad;
    const double loose = look.top == Top::jacket ? 0.35 : look.top == Top::jumper ? 1.15 : 1.0;
    const bool tucked = is_tucked(look);
    const double side = std::abs(around_rad);
    // Across the waist, broken where they meet.
    const double waist = bump((t - (tucked ? 0.42 : 0.36)) / 0.17);
    double out = 0.0034 * waist *
                 crumpled(turn * up_m / (0.034 * u) + 2.2 * std::sin(2 * around_rad + phase) +
                          1.1 * std::sin(3 * around_rad + 2 * phase));
    // Drawn from under the arm towards the middle of the belly and of the back.
    const double under_arm = bump((t - 0.66) / 0.16) * bump((side - 1.15) / 0.55);
    // Only drawn in: a chest is as deep as it is.
    out += 0.0027 * under_arm *
           (crumpled(turn * (up_m / (0.045 * u) + 0.55 * side) + phase) - crumpled(turn / 2));
    out += 0.0004 * bump((t - 0.8) / 0.2) *
           std::sin(turn * up_m / (0.07 * u) + 3 * around_rad + phase);
    if (look.top == Top::dress)  // Smooth where it is sewn to its skirt.
        out *= glm::smoothstep(0.0, 0.035 * u, up_m - belt_up_m);
    else if (tucked)  // Bloused over the waistband, in gathers.
        out += glm::smoothstep(0.004 * u, 0.016 * u, up_m - belt_up_m) *
               bump((up_m - belt_up_m - 0.022 * u) / (0.022 * u)) *
               (0.0045 + 0.0016 * std::sin(15 * around_rad + phase));
    else  // Falling from the hips.
        out += 0.0028 * (1 - glm::smoothstep(0.0, 0.28, t)) *
               std::sin(6 * around_rad + 0.8 * std::sin(2 * around_rad + phase) + phase);
    // A placket is stiff.
    const bool buttoned = look.top != Top::jumper && !has_short_sleeves(look);
    const double stiff = buttoned ? 1 - 0.75 * bump(around_rad / 0.22) : 1.0;
    return 1.3 * out * loose * stiff * u;
}

double LimbFolds::out_m(double along_m, const dvec3& out) const {
    const double u = stature_m;
    const double bent = 1 - glm::dot(before, after);
    const dvec3 inwards = bent > 0.01 ? glm::normalize(after - before) : dvec3{0, 0, 1};
    const dvec3 across = glm::normalize(glm::cross(before, inwards) + dvec3{0, 1e-6, 0});
    const double inner = glm::dot(out, inwards), aside = glm::dot(out, across);
    const double s = along_m - to_bend_m;
    // Pressed together inside the bend, drawn tight outside it.
    const double at_bend = bump(s / (0.050 * u));
    double folds = (0.0018 + 0.0045 * std::min(bent, 1.0)) * at_bend *
                   (0.3 + 0.7 * glm::smoothstep(-0.4, 0.8, inner)) *
                   crumpled(turn * s / (0.022 * u) + 1.6 * aside + phase_rad);
    // Winding round what hangs straight, only drawn in: shoulders are as broad as they are.
    folds +=
        0.0021 * (crumpled(turn * along_m / (0.058 * u) + 1.9 * aside + 1.2 * inner + phase_rad) -
                  crumpled(turn / 2));
    // Cloth lies on the cuff or the shoe.
    folds += 0.0024 * bump((to_end_m - along_m) / (0.040 * u)) *
             crumpled(turn * (to_end_m - along_m) / (0.020 * u) + 2.1 * inner + phase_rad);
    return folds * looseness * u;
}

}  // namespace backrow::figures
