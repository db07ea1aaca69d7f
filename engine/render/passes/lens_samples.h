#pragma once

// The points of the lens that a picture is made through.

#include "optics/lens/opening_shape.h"

#include "base/sequences.h"

#include <vector>

namespace backrow::render {

/// As the shaders read it (std430).
struct LensSample {
    float pupil_x = 0;  ///< Point of the opening, in its radii.
    float pupil_y = 0;
    float jitter_x = 0;  ///< Point of the texel, −½ … ½.
    float jitter_y = 0;
    float drawn_in = 0;  ///< By how much of the square of its radius, where cells are spread.
    float unused = 0;
};

/// Coarse samples, one a pass, each standing for an equal cell of the opening; and fine ones for
/// small bright sources, which would show as separate dots through the coarse ones alone. Those
/// that lie in pass i's cell are fine[first_fine[i]] … fine[first_fine[i + 1] − 1].
struct LensSamples {
    std::vector<LensSample> coarse;
    std::vector<LensSample> fine;
    std::vector<int> first_fine;  ///< One more than there are coarse samples.
    double cell_radius = 0;  ///< cell_radius_of() the first block of the coarse ones; 0: nothing is
                             ///< spread.
    /// After how many passes a picture is looked at, whether it is good enough, and when it is:
    /// where it is as many decibels from what it was at half as many, as a whole and in its worst
    /// square. Empty: all passes are drawn.
    std::vector<int> looks{};
    double enough_db = 0;
    double enough_in_worst_square_db = 0;
    double spread_texels = 0;  ///< How far cells spread what is blurred most in the picture.

    /// What one fine sample counts when the light of all passes is added up.
    [[nodiscard]] double fine_share() const noexcept {
        return static_cast<double>(coarse.size()) / static_cast<double>(fine.size());
    }
};

/// Each of so many coarse samples is seen spread by its cell of the opening (shaders/cells.glsl):
/// the radius of the cell's image, as a share of the whole disc's. A cell has 1/passes of the area;
/// its image is taken a little wider, lest the discs show between them.
[[nodiscard]] double cell_radius_of(int passes) noexcept;

/// How far their kernel reaches, in radii of the disc.
[[nodiscard]] double cells_reach(int passes) noexcept;

/// passes ≥ 1; fine_samples ≥ passes or 0 for as many as passes.
[[nodiscard]] LensSamples make_lens_samples(int passes, int fine_samples,
                                            const optics::Opening& opening);

/// The samples of the first passes alone: of a picture that was good enough.
[[nodiscard]] LensSamples first_of(const LensSamples& samples, int passes);

/// As many again of both kinds, between the others, and again, while there are no more than most:
/// each block by itself and all so far cover the opening evenly.
void double_up_to(LensSamples& samples, int most, const optics::Opening& opening);

}  // namespace backrow::render
