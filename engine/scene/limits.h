#pragma once

// The ranges of a scene's numbers: hard limits, beyond which no photograph is meant or the geometry
// breaks down. Usual values are in the comments.

#include "figures/measures/body_measures.h"

#include <cstdint>

namespace backrow::scene {

/// Both ends included.
template <class Number>
struct Range {
    Number least;
    Number greatest;
};

namespace limits {

inline constexpr int most_people = 2000;
inline constexpr double farthest_m = 300.0;  ///< From the mark, to any side.

/// To either side, of one coordinate of a place.
inline constexpr Range<double> from_mark_m{-farthest_m, farthest_m};

// [camera]
inline constexpr Range<double> sensor_mm{1, 300};
inline constexpr Range<double> pixels{16, 65535};
inline constexpr Range<double> focal_length_mm{1, 2000};          // 24 … 135
inline constexpr Range<double> f_number{0.5, 128};                // 1.2 … 16
inline constexpr Range<double> lens_to_mark_m{0.05, farthest_m};  // 2 … 15
inline constexpr Range<double> height_m{0.01, 100};               // 1 … 3
inline constexpr Range<double> camera_across_m{-farthest_m, farthest_m};
inline constexpr Range<double> shutter_s{0.00001, 60};  // 1/2000 … 1/30
inline constexpr Range<double> iso{1, 10'000'000};      // 100 … 6400
inline constexpr Range<double> filter_stops{0, 20};     // 0 … 10

// [focus]
inline constexpr Range<double> focus_axial_m{0.001, 100'000};

// [lens] and the lens profile; 1 … 4 and 5 … 20 blades are told apart when reading.
inline constexpr Range<int> blades{0, 20};
inline constexpr Range<double> widest_f_number{0.5, 32};          // 1.2 … 4
inline constexpr Range<double> smallest_f_number{1, 128};         // 16 … 22
inline constexpr Range<double> spherical_dpt{-20, 20};            // ±0.05
inline constexpr Range<double> field_curvature_dpt{-20, 20};      // ±0.05
inline constexpr Range<double> astigmatism_dpt{-20, 20};          // ±0.05
inline constexpr Range<double> coma_dpt{-20, 20};                 // ±0.03
inline constexpr Range<double> longitudinal_colour_dpt{-20, 20};  // ±0.03
inline constexpr Range<double> vignetting{0, 1.3};                // 0.8 … 1.25
inline constexpr Range<double> natural_falloff{0, 1};             // 0.5 … 1
inline constexpr Range<double> focus_offset_dpt{-1, 1};           // ±0.01
inline constexpr Range<double> roundness{0, 1};                   // 0 … 0.8
inline constexpr Range<double> image_height{0, 1};
inline constexpr Range<double> mtf50_cy_per_mm{0.1, 2000};      // 10 … 100
inline constexpr Range<double> measured_pixel_mm{0.0005, 0.1};  // 0.003 … 0.009

// [viewing]
inline constexpr Range<double> print_long_side_cm{1, 10'000};   // 14 … 90
inline constexpr Range<double> viewing_distance_cm{5, 10'000};  // 25 … 200

// [[row]]
inline constexpr Range<double> back_m{-farthest_m, farthest_m};
inline constexpr Range<double> up_m{-5, 100};
inline constexpr Range<double> spacing_m{0.05, 20};  // 0.45 … 0.9

// [[person]]
inline constexpr Range<double> stature_m{figures::least_stature_m, figures::greatest_stature_m};
inline constexpr Range<double> age_years{figures::least_age_years, figures::greatest_age_years};
inline constexpr Range<double> across_m{-farthest_m, farthest_m};
inline constexpr Range<double> turn_deg{-180, 180};
inline constexpr Range<double> head_turn_deg{-80, 80};
inline constexpr Range<double> lean_m{-0.6, 0.6};
inline constexpr Range<double> lean_sideways_m{-0.6, 0.6};
inline constexpr Range<double> speed_mps{0, 12};  // walking 1.3
inline constexpr Range<double> heading_deg{-360, 360};

// [setting]
inline constexpr Range<double> backdrop_back_m{0.3, 400};
inline constexpr Range<double> photo_width_m{0.05, 2000};  // 3 … 60
inline constexpr Range<double> photo_up_m{-100, 100};
inline constexpr Range<double> highlight_gain{1, 100};  // 4 … 16
inline constexpr Range<double> panorama_turn_deg{-360, 360};

// [[model]]
inline constexpr Range<double> model_turn_deg{-360, 360};
inline constexpr Range<double> scale{0.0001, 10'000};

// [odds]
inline constexpr Range<double> sway_mm{0, 500};
inline constexpr Range<double> sideways_sway_mm{0, 500};
inline constexpr Range<double> camera_sway_mm{0, 500};
inline constexpr Range<double> autofocus_mm{0, 10'000};
inline constexpr Range<double> recompose_deg{0, 45};  // 0 … 20
inline constexpr Range<double> line_up_mm{0, 1000};   // 0 … 50
inline constexpr Range<double> delay_s{0, 10};        // 0 … 0.3
inline constexpr Range<double> blinks_per_min{0, 60};
inline constexpr Range<double> blink_s{0, 1};

// [light]
inline constexpr Range<double> scene_ev100{-10, 25};  // 5 … 15
inline constexpr Range<double> sun_elevation_deg{-90, 90};
inline constexpr Range<double> sun_azimuth_deg{-360, 360};
inline constexpr Range<double> window_azimuth_deg{-360, 360};
inline constexpr Range<double> window_distance_m{0.5, 50};  // 1.5 … 6
inline constexpr Range<double> window_width_m{0.1, 20};     // 1 … 4
inline constexpr Range<double> window_height_m{0.1, 20};    // 1 … 3
inline constexpr Range<double> window_sill_m{0, 20};        // 0 … 1.2

}  // namespace limits

/// Larger pictures of a place are not looked at.
inline constexpr std::uintmax_t most_photograph_bytes = 256u << 20;

}  // namespace backrow::scene
