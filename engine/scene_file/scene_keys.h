#pragma once

// Every key of a scene file that takes a number or a word. What may be written is declared apart
// from it, in scene/limits.h and scene/words.h. Units stand in the keys; where a word alone is the
// key, none.

#include "scene/limits.h"
#include "scene/words.h"
#include "scene_file/toml/table_reader.h"

namespace backrow::scene_file::keys {

namespace limits = scene::limits;
namespace words = scene::words;

// [camera]
inline constexpr NumbersKey<2> sensor_mm{"sensor_mm", "[width, height]", limits::sensor_mm};
inline constexpr NumbersKey<2> pixels{"pixels", "[width, height]", limits::pixels};
inline constexpr WordKey orientation{"orientation", words::orientation};
inline constexpr NumberKey focal_length_mm{"focal_length_mm", limits::focal_length_mm};
inline constexpr NumberKey f_number{"f_number", limits::f_number};
inline constexpr NumberKey lens_to_mark_m{"distance_m", limits::lens_to_mark_m};
inline constexpr NumberKey height_m{"height_m", limits::height_m};
inline constexpr NumberKey camera_across_m{"across_m", limits::camera_across_m};
inline constexpr NumberKey shutter_s{"shutter_s", limits::shutter_s};
inline constexpr NumberKey iso{"iso", limits::iso};
inline constexpr NumberKey filter_stops{"filter_stops", limits::filter_stops};
inline constexpr WordKey exposure{"exposure", words::exposure};
inline constexpr WordKey focus_found_at{"found_at", words::found_at};
inline constexpr NumbersKey<3> aim{"aim", "[across, up, back]", limits::from_mark_m};

// [focus]
inline constexpr NumberKey focus_axial_m{"distance_m", limits::focus_axial_m};
inline constexpr NumbersKey<3> focus_point{"point", "[across, up, back]", limits::from_mark_m};

// [lens] and the lens profile; 1 … 4 and 5 … 20 blades are told apart when reading.
inline constexpr WholeKey blades{"blades", limits::blades};
inline constexpr NumberKey widest_f_number{"widest_f_number", limits::widest_f_number};
inline constexpr NumberKey spherical_dpt{"spherical_dpt", limits::spherical_dpt};
inline constexpr NumberKey field_curvature_dpt{"field_curvature_dpt", limits::field_curvature_dpt};
inline constexpr NumberKey smallest_f_number{"smallest_f_number", limits::smallest_f_number};
inline constexpr NumberKey astigmatism_dpt{"astigmatism_dpt", limits::astigmatism_dpt};
inline constexpr NumberKey coma_dpt{"coma_dpt", limits::coma_dpt};
inline constexpr NumbersKey<3> longitudinal_colour_dpt{
    "longitudinal_colour_dpt", "[red, green, blue]", limits::longitudinal_colour_dpt};
inline constexpr NumberKey vignetting{"vignetting", limits::vignetting};
inline constexpr NumberKey natural_falloff{"natural_falloff", limits::natural_falloff};
inline constexpr NumberKey focus_offset_dpt{"focus_offset_dpt", limits::focus_offset_dpt};
inline constexpr NumberKey roundness{"roundness", limits::roundness};
inline constexpr NumberKey image_height{"image_height", limits::image_height};
inline constexpr NumberKey mtf50_cy_per_mm{"mtf50_cy_per_mm", limits::mtf50_cy_per_mm};
inline constexpr NumberKey measured_pixel_mm{"measured_pixel_mm", limits::measured_pixel_mm};

// [viewing]
inline constexpr WordKey use{"use", words::use};
inline constexpr NumberKey print_long_side_cm{"print_long_side_cm", limits::print_long_side_cm};
inline constexpr WordKey judge{"judge", words::judge};
inline constexpr NumberKey viewing_distance_cm{"viewing_distance_cm", limits::viewing_distance_cm};

// [[row]]
inline constexpr NumberKey back_m{"back_m", limits::back_m};
inline constexpr NumberKey up_m{"up_m", limits::up_m};
inline constexpr NumberKey spacing_m{"spacing_m", limits::spacing_m};

// [[person]]
inline constexpr NumberKey stature_m{"stature_m", limits::stature_m};
inline constexpr NumberKey age_years{"age_years", limits::age_years};
inline constexpr WordKey sex{"sex", words::sex};
inline constexpr WordKey build{"build", words::build};
inline constexpr WordKey skin{"skin", words::skin};
inline constexpr WordKey hair_colour{"hair_colour", words::hair_colour};
inline constexpr WordKey posture{"posture", words::posture};
inline constexpr WordKey carried{"carried", words::carried};
inline constexpr WordKey arms{"arms", words::arms};
inline constexpr WordKey expression{"expression", words::expression};
inline constexpr NumbersKey<3> gaze{"gaze", "[across, up, back]", limits::from_mark_m};
inline constexpr WordKey hair{"hair", words::hair};
inline constexpr WordKey headwear{"headwear", words::headwear};
inline constexpr WordKey top{"top", words::top};
inline constexpr WordKey bottom{"bottom", words::bottom};
// Words and #rrggbb: colours.h.
inline constexpr std::string_view top_colour = "top_colour";
inline constexpr std::string_view bottom_colour = "bottom_colour";
inline constexpr std::string_view headwear_colour = "headwear_colour";
inline constexpr NumberKey across_m{"across_m", limits::across_m};
inline constexpr NumberKey turn_deg{"turn_deg", limits::turn_deg};
inline constexpr NumberKey head_turn_deg{"head_turn_deg", limits::head_turn_deg};
inline constexpr NumberKey lean_m{"lean_m", limits::lean_m};
inline constexpr NumberKey lean_sideways_m{"lean_sideways_m", limits::lean_sideways_m};
inline constexpr NumberKey speed_mps{"speed_mps", limits::speed_mps};
inline constexpr NumberKey heading_deg{"heading_deg", limits::heading_deg};

// [setting]
inline constexpr WordKey ground{"ground", words::ground};
inline constexpr WordKey backdrop_kind{"kind", words::backdrop_kind};
inline constexpr WordKey finish{"finish", words::finish};
inline constexpr NumberKey backdrop_back_m{"back_m", limits::backdrop_back_m};
inline constexpr NumberKey photo_width_m{"width_m", limits::photo_width_m};
inline constexpr NumberKey photo_up_m{"up_m", limits::photo_up_m};
inline constexpr NumberKey highlight_gain{"highlight_gain", limits::highlight_gain};
inline constexpr NumberKey panorama_turn_deg{"panorama_turn_deg", limits::panorama_turn_deg};

// [[model]]
inline constexpr NumberKey model_turn_deg{"turn_deg", limits::model_turn_deg};
inline constexpr NumberKey scale{"scale", limits::scale};

// [odds]
inline constexpr NumberKey sway_mm{"sway_mm", limits::sway_mm};
inline constexpr NumberKey sideways_sway_mm{"sideways_sway_mm", limits::sideways_sway_mm};
inline constexpr NumberKey camera_sway_mm{"camera_sway_mm", limits::camera_sway_mm};
inline constexpr NumberKey autofocus_mm{"autofocus_mm", limits::autofocus_mm};
inline constexpr NumberKey recompose_deg{"recompose_deg", limits::recompose_deg};
inline constexpr NumberKey line_up_mm{"line_up_mm", limits::line_up_mm};
inline constexpr NumberKey delay_s{"delay_s", limits::delay_s};
inline constexpr NumberKey blinks_per_min{"blinks_per_min", limits::blinks_per_min};
inline constexpr NumberKey blink_s{"blink_s", limits::blink_s};

// [light]
inline constexpr NumberKey scene_ev100{"scene_ev100", limits::scene_ev100};
inline constexpr NumberKey sun_elevation_deg{"sun_elevation_deg", limits::sun_elevation_deg};
inline constexpr NumberKey sun_azimuth_deg{"sun_azimuth_deg", limits::sun_azimuth_deg};
inline constexpr WordKey light_kind{"kind", words::light_kind};
inline constexpr NumberKey window_azimuth_deg{"window_azimuth_deg", limits::window_azimuth_deg};
inline constexpr NumberKey window_distance_m{"window_distance_m", limits::window_distance_m};
inline constexpr NumberKey window_width_m{"window_width_m", limits::window_width_m};
inline constexpr NumberKey window_height_m{"window_height_m", limits::window_height_m};
inline constexpr NumberKey window_sill_m{"window_sill_m", limits::window_sill_m};

/// The word of a file that stands for this value.

}  // namespace backrow::scene_file::keys
