#include "figures/clothes/trims.h"

#include "figures/body/chest.h"
#include "figures/clothes/collars.h"
#include "figures/clothes/jacket_front.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <vector>

namespace backrow::figures {

using glm::dvec2;
using glm::dvec3;

void add_trims(const Skeleton& s, const Appearance& look, const BodyMeasures& m,
               const TopFields& top, const Neckline& neckline, Detail detail, shapes::Mesh& onto) {
    if (detail == Detail::far)
        return;
    const double u = m.stature_m;
    const int fine = is_fine(detail) ? 2 : 1;
    // Shirt fronts run up over the throat.
    const shapes::Field front = [&](const dvec3& p) {
        return std::min(top.body(p), neckline.neck(p));
    };
    const Chest chest{s, front, u, detail == Detail::close};
    const bool jacket = look.top == Top::jacket;
    const bool collared = jacket || look.top == Top::shirt || look.top == Top::blouse;

    // Under a headscarf no collar is seen.
    if (look.headwear != Headwear::headscarf) {
        if (jacket) {
            add_shirt_collar(neckline, look.under_colour, look.tie ? 0.16 : 0.34, 10 * fine, onto);
            add_jacket_collar(neckline, look.top_colour * 1.08, 8 * fine, onto);
        } else if (collared) {
            add_shirt_collar(neckline, look.top_colour * 1.05, 0.26, 11 * fine, onto);
        } else {
            add_neckband(neckline, look.top_colour * (look.top == Top::jumper ? 0.88 : 0.94),
                         11 * fine, onto);
        }
    }

    const double throat = s.build.shoulder_up_m - 0.012 * u;
    const bool tucked = is_tucked(look);
    const double low = tucked ? skirt_top_up_m(s, look, m, 0.075 * u) : hem_up_m(s, look, m, 0.0);
    if (jacket) {
        add_jacket_front(chest, look, neckline, 0.36 * s.build.shoulder_up_m, low, fine, onto);
    } else if (collared) {
        const double w = 0.009 * u;
        std::vector<std::array<dvec2, 2>> placket;
        const auto up_trunk = [&](const dvec3& p) { return glm::dot(p - s.hips_m, s.trunk[1]); };
        const double band_m = up_trunk(neckline.at(0).at_m);
        const double end_m = low - (tucked ? 0.006 : 0.0) * u;
        const int rows = detail == Detail::close ? 24 : detail == Detail::near ? 12 : 6;
        for (int i = 0; i <= rows; ++i) {
            const double y = glm::mix(band_m, end_m, i / static_cast<double>(rows));
            placket.push_back({dvec2{-w, y}, dvec2{w, y}});
        }
        chest.strip(placket, 3, 0.0065, look.top_colour * 1.05, 1.0, onto);
        if (is_fine(detail))
            // The first one lies under a headscarf.
            for (int i = look.headwear == Headwear::headscarf ? 1 : 0; i < 5; ++i)
                chest.button({0, glm::mix(throat - 0.022 * u, end_m + 0.020 * u, i / 4.0)},
                             0.0034 * u, look.under_colour, onto);
    }
}

}  // namespace backrow::figures
