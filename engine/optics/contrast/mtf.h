#pragma once

// How much of the contrast of fine detail is left: the modulation transfer function (MTF), from
// spatial frequencies on the sensor in cycles a millimetre to shares of 1.
//
// What the lens leaves follows from the wave that it makes of a point. Its errors and the defocus
// delay the light through p of the opening by W(p) waves, of which the ray errors of ray_error.h
// are the slope, and two points of the opening as far apart as the frequency asks for carry it
// together:
//
//     OTF(ν) = 1/A ∫ exp 2πi (W(p + σ/2) − W(p − σ/2)) dp,   σ = λ v ν/R radii,
//     W(p) = R²/λ·[ (1/s − 1/d + C h² + …) p²/2 + A κ² p⁴/4 + S h² (px² − py²)/4 + B κ h p² px ]
//
// over where both lie in the opening. Defocus, aberrations, vignetting and diffraction are all in
// it. Rays are the limit of small σ: over all of the opening, σ times the slope of W.

#include "optics/lens/lens.h"

#include <functional>
#include <vector>

namespace backrow::optics {

/// Green, to which eye and sensor are most open.
inline constexpr double wavelength_mm = 550e-6;

/// Of a perfect lens in focus, (2/π)(acos u − u √(1 − u²)).
///
/// of_cutoff  u, the frequency times λN; 0 from 1 on
[[nodiscard]] double diffraction_mtf(double of_cutoff) noexcept;

/// Of an even disc, 2 J₁(π ν D)/(π ν D); negative where it turns dark and light about.
///
/// cycles  ν D, how many fit across it
[[nodiscard]] double disc_otf(double cycles);

/// Of an even streak or of a pixel as wide as its pitch: sin(π ν ℓ)/(π ν ℓ).
[[nodiscard]] double box_otf(double cycles) noexcept;

/// Lines that lie across the radius, or along it.
enum class Lines { tangential, sagittal };

/// What light is taken for: waves, as it is; or rays, as in pictures that are drawn, where small
/// openings do not blur.
enum class Light { waves, rays };

/// The lens's own share, of a point at axial_m > 0 and image height 0 … 1.
///
/// cy_per_mm  ≥ 0
/// holds      for a round opening and green; to 0.001 where the blur is not above four cycles
[[nodiscard]] double lens_mtf(const Lens& lens, double axial_m, double image_height, Lines lines,
                              double cy_per_mm, Light light = Light::waves);

/// The same of what the eye takes in: red, green and blue by their shares of luminance, each
/// focused where it is. Where a lens brings them together it is that of green.
[[nodiscard]] double seen_mtf(const Lens& lens, double axial_m, double image_height, Lines lines,
                              double cy_per_mm, Light light = Light::waves);

/// An MTF at even steps of frequency from 0 on; straight between them, and beyond the last what it
/// is there.
struct MtfCurve {
    double step_cy_per_mm = 1;
    std::vector<double> values;  ///< From 1 on; never empty.

    [[nodiscard]] double at(double cy_per_mm) const;
};

/// Where half of the contrast is left, cycles a millimetre; the end of the curve where more is left
/// all along.
[[nodiscard]] double mtf50_cy_per_mm(const MtfCurve& curve);

/// Everything between a point and the picture's pixels, in all colours: the mean of both kinds of
/// lines, times pixel and movement, which is along one way and not across it.
///
/// pixel_mm   > 0
/// streak_mm  ≥ 0, how far its image moves
[[nodiscard]] MtfCurve system_mtf(const Lens& lens, double axial_m, double image_height,
                                  double pixel_mm, double streak_mm);

/// How much of what the eye would see of detail is there to see: the MTF weighted by the eye's own
/// sensitivity to contrast, v^0.8 exp(−0.2 v) at v cycles a degree.
///
/// mtf      of cycles a degree
/// returns  0 … 1
/// source   [CPIQ2012], the constants from memory
[[nodiscard]] double acutance(const std::function<double(double)>& mtf);

}  // namespace backrow::optics
