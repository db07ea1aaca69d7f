#include "setting/ground/grounds.h"
#include "setting/ground/laid.h"

#include "setting/chance.h"

namespace backrow::setting {

std::vector<Piece> build_boards() {
    constexpr float plank_m = 0.145F;
    constexpr float gap_m = 0.006F;
    constexpr int planks = 62;  // Each side of the mark.
    constexpr float near_m = 7.2F;
    constexpr float far_m = -16.8F;
    constexpr float longest_m = 4.2F;

    std::vector<LaidPiece> deck;
    for (int plank = -planks; plank < planks; ++plank) {
        Chance chance{41, plank};
        // Ends fall on joists, 0.6 m apart.
        float from = near_m;
        float length = 0.6F * std::floor(chance.between(2, 7));
        for (int piece = 0; from > far_m + 0.01F; ++piece) {
            const float to = std::max(from - length, far_m);
            const float x = static_cast<float>(plank) * plank_m;
            deck.push_back({.low_m = {x + gap_m / 2, to + gap_m / 4},
                            .high_m = {x + plank_m - gap_m / 2, from - gap_m / 4},
                            .grain_m = {0.047F, 0.42F},
                            .lean = 0.01F,
                            .key = plank * 31 + piece});
            from = to;
            length = longest_m;
        }
    }
    return lay(deck,
               {.light = {0.235F, 0.185F, 0.135F},
                .dark = {0.120F, 0.088F, 0.062F},
                .joint = {0.02F, 0.016F, 0.012F},
                .joint_depth_m = 0.02F,
                .near_m = 3.6F,
                .gloss = 0.08F,
                .joint_share = 0.045F},
               {-planks * plank_m, far_m}, {planks * plank_m, near_m});
}

}  // namespace backrow::setting
