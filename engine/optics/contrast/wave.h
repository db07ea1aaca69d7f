#pragma once

// The wave that reaches the image of a point, and what is left of the contrast of lines: the
// overlap of two openings that lines bring as far apart, with the delays between them
// [HOPKINS1955]. The delays are sums over the terms of the wave; where they meet in the opening
// depends on none. So whoever tries many waves in one opening works the meetings out once.

#include "optics/contrast/mtf.h"
#include "optics/lens/lens.h"

#include <complex>
#include <vector>

namespace backrow::optics {

/// W(p) in waves, p in radii of the present opening, x along the radius of the picture.
struct Wave {
    double radial = 0;  ///< Of px².
    double around = 0;  ///< Of py².
    double fourth = 0;  ///< Of p⁴.
    double coma = 0;    ///< Of p² px.
};

/// channel  0 red, 1 green, 2 blue; all of green's wavelength, each with its own focus
[[nodiscard]] Wave wave_of(const Lens& lens, double axial_m, double image_height,
                           int channel = 1) noexcept;

/// Where light meets that went through two places of the opening.
struct Meeting {
    double weight = 0;  ///< Of all 1, where the opening is whole and lines are coarse.
    Wave turns{};       ///< By how many turns it is apart for one wave of each term.
};

struct Meetings {
    std::vector<Meeting> all{};
    bool is_even = false;  ///< For each there is another, not listed, that is as much behind.
};

/// Of lines of so many cycles; none from the cutoff on.
[[nodiscard]] Meetings meetings(const Lens& lens, double image_height, Lines lines,
                                double cy_per_mm, Light light);

/// Likewise of lines that lie aslant, to 0.003.
///
/// tangential_share  cos² of the angle between the radius and the way across the lines: 1 for
///                   tangential ones, 0 for sagittal
[[nodiscard]] Meetings slanted_meetings(const Lens& lens, double image_height,
                                        double tangential_share, double cy_per_mm, Light light);

struct Contrast {
    double left = 0;  ///< 0 … 1
    Wave slopes{};    ///< Of it, by the terms of the wave.
};

[[nodiscard]] Contrast contrast(const Meetings& meetings, const Wave& wave) noexcept;

/// The contrast that is left with its phase, so that colours can be added up.
[[nodiscard]] std::complex<double> otf(const Meetings& meetings, const Wave& wave) noexcept;

}  // namespace backrow::optics
