#include "setting/backdrops/backdrops.h"

#include <algorithm>

namespace backrow::setting {

float sensible_height_m(const Reach& reach, float least_m, float most_m) noexcept {
    return std::clamp(static_cast<float>(reach.top_m), least_m, most_m);
}

Window window_behind(const Reach& reach, float behind_m) noexcept {
    const double grown =
        1 + static_cast<double>(behind_m) / std::max(reach.lens_to_backdrop_m, 1.0);
    const double middle = (reach.left_m + reach.right_m) / 2;
    return {static_cast<float>(middle + (reach.left_m - middle) * grown),
            static_cast<float>(middle + (reach.right_m - middle) * grown),
            static_cast<float>(reach.top_m * grown)};
}

std::vector<Piece> build_backdrop(const Backdrop& backdrop, const Reach& reach) {
    switch (backdrop.kind) {
    case BackdropKind::wall:
        return backdrop.finish == Finish::plaster ? build_plaster(backdrop.back_m, reach)
                                                  : build_wall(backdrop.back_m, reach);
    case BackdropKind::hedge:
        return build_hedge(backdrop.back_m, reach);
    case BackdropKind::trees:
        return build_trees(backdrop.back_m, reach);
    case BackdropKind::lights:
        return build_lights(backdrop.back_m, reach);
    case BackdropKind::water:
        return build_water(backdrop.back_m, reach);
    case BackdropKind::bookshelf:
        return build_bookshelf(backdrop.back_m, reach);
    case BackdropKind::hall:
        return build_hall(backdrop.back_m, reach);
    case BackdropKind::beach:
        return build_beach(backdrop.back_m, reach);
    case BackdropKind::street:
        return build_street(backdrop.back_m, reach);
    case BackdropKind::photo:
        break;
    }
    return {};
}

}  // namespace backrow::setting
