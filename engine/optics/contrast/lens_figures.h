#pragma once

// What a lens is good for, in figures: its sharpness by opening and place, the shape of its field,
// the light that it loses. All of a flat chart square to the camera, focused anew at each opening
// where the middle of the picture is least blurred.

#include "optics/contrast/mtf.h"
#include "optics/lens/lens.h"

#include <optional>
#include <vector>

namespace backrow::optics {

struct PlaceFigures {
    double mtf50_tangential_cy_per_mm = 0;
    double mtf50_sagittal_cy_per_mm = 0;
    double blur_mm = 0;     ///< blur_diameter_mm() of the chart.
    double stops_lost = 0;  ///< Against the middle of the same opening, ≥ 0.
};

/// Where points are in focus, of lines that lie across the radius (tangential) and along it.
struct FieldFigures {
    double image_height = 0;
    double tangential_m = 0;  ///< Behind the chart; < 0 nearer.
    double sagittal_m = 0;
};

struct LensFigures {
    double distance_m = 3;
    std::vector<double> f_numbers;                    ///< The widest, then full stops.
    std::vector<double> image_heights{};              ///< 0 … 1, evenly, as of field.
    std::vector<std::vector<PlaceFigures>> places{};  ///< By f-number, then by height.
    std::vector<FieldFigures> field{};                ///< Whatever the opening.

    [[nodiscard]] const PlaceFigures& at(std::size_t f_number, double image_height) const;
};

/// Half of the contrast is left at; the cutoff where more is left all along.
[[nodiscard]] double mtf50_cy_per_mm(const Lens& lens, double axial_m, double image_height,
                                     Lines lines, Light light = Light::waves);

/// lens      its f-number is the widest to be shown, its focus of no account
/// smallest  the last f-number shown, > 0
/// returns   nothing where it forms no image at that distance
[[nodiscard]] std::optional<LensFigures> lens_figures(const Lens& lens, double distance_m,
                                                      double smallest_f_number);

/// From which opening on, stopping down, the blur at this height stays within a limit.
[[nodiscard]] std::optional<double> good_from(const LensFigures& figures, double image_height,
                                              double limit_mm);

}  // namespace backrow::optics
