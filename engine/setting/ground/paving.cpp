#include "setting/ground/grounds.h"
#include "setting/ground/laid.h"

#include "setting/chance.h"

namespace backrow::setting {

std::vector<Piece> build_paving() {
    constexpr float slab_across_m = 0.60F;
    constexpr float slab_along_m = 0.40F;
    constexpr float joint_m = 0.008F;
    constexpr int rows_behind = 40;
    constexpr int rows_in_front = 18;
    constexpr int columns = 17;  // Each side of the mark.

    std::vector<LaidPiece> slabs;
    const glm::vec2 low_m{-columns * slab_across_m, -rows_behind * slab_along_m};
    const glm::vec2 high_m{columns * slab_across_m, rows_in_front * slab_along_m};
    for (int row = -rows_behind; row < rows_in_front; ++row) {
        const bool is_shifted = row % 2 != 0;
        for (int column = -columns; column < columns + (is_shifted ? 1 : 0); ++column) {
            const float x =
                (static_cast<float>(column) - (is_shifted ? 0.5F : 0.0F)) * slab_across_m;
            const float z = static_cast<float>(row) * slab_along_m;
            LaidPiece slab{.low_m = {std::max(x, low_m.x), z},
                           .high_m = {std::min(x + slab_across_m, high_m.x), z + slab_along_m},
                           .grain_m = {0.15F, 0.10F},
                           .lean = 0.008F,
                           .key = row * 1009 + column};
            slab.low_m += joint_m / 2;
            slab.high_m -= joint_m / 2;
            slabs.push_back(slab);
        }
    }
    return lay(slabs,
               {.light = {0.285F, 0.270F, 0.240F},
                .dark = {0.165F, 0.158F, 0.146F},
                .joint = {0.07F, 0.065F, 0.055F},
                .near_m = 4.6F,
                .gloss = 0.05F,
                .joint_share = 0.033F},
               low_m, high_m);
}

}  // namespace backrow::setting
