#include "figures/clothes/neckline.h"

#include "figures/body/flesh.h"

#include <cmath>

namespace backrow::figures {

using glm::dvec3;

Neckline::Place Neckline::at(double around_rad) const {
    const dvec3 out =
        skeleton.trunk[0] * std::sin(around_rad) + skeleton.trunk[2] * std::cos(around_rad);
    const double reach = 0.08 * stature_m;
    const auto on_neck = [&](double height) {
        const dvec3 axis = skeleton.on_trunk({0, height, -0.006 * stature_m});
        return axis + out * leaves_at(neck, axis, out, reach);
    };
    double low = skeleton.build.shoulder_up_m - 0.015 * stature_m;
    double high = low + 0.09 * stature_m;
    for (int i = 0; i < 9; ++i) {
        const double middle = (low + high) / 2;
        (garment(on_neck(middle)) < 0 ? low : high) = middle;
    }
    return {on_neck(low), out};
}

}  // namespace backrow::figures
