#pragma once

// Every key of a scene file that takes a number or a word, with what may be written. The ranges are
// hard limits: beyond them no photograph is meant, or the geometry breaks down. Usual values are in
// the comments. Units stand in the keys; where a word alone is the key, none.

#include "scene/scene.h"
#include "scene/table_reader.h"

namespace backrow::scene::keys {

inline constexpr double farthest_m = 300.0;  ///< From the mark, to any side.

// [camera]
inline constexpr NumbersKey<2> sensor_mm{"sensor_mm", "[width, height]", 1, 300};
inline constexpr NumbersKey<2> pixels{"pixels", "[width, height]", 16, 65535};
inline constexpr WordKey<Orientation, 2> orientation{
    "orientation", {{{"landscape", Orientation::landscape}, {"portrait", Orientation::portrait}}}};
inline constexpr NumberKey focal_length_mm{"focal_length_mm", 1, 2000};     // 24 … 135
inline constexpr NumberKey f_number{"f_number", 0.5, 128};                  // 1.2 … 16
inline constexpr NumberKey lens_to_mark_m{"distance_m", 0.05, farthest_m};  // 2 … 15
inline constexpr NumberKey height_m{"height_m", 0.01, 100};                 // 1 … 3
inline constexpr NumberKey camera_across_m{"across_m", -farthest_m, farthest_m};
inline constexpr NumberKey shutter_s{"shutter_s", 0.00001, 60};  // 1/2000 … 1/30
inline constexpr NumberKey iso{"iso", 1, 10'000'000};            // 100 … 6400
inline constexpr WordKey<ShownExposure, 2> exposure{
    "exposure", {{{"metered", ShownExposure::metered}, {"as_set", ShownExposure::as_set}}}};
inline constexpr NumbersKey<3> aim{"aim", "[across, up, back]", -farthest_m, farthest_m};

// [focus]
inline constexpr NumberKey focus_axial_m{"distance_m", 0.001, 100'000};
inline constexpr NumbersKey<3> focus_point{"point", "[across, up, back]", -farthest_m, farthest_m};

// [lens] and the lens profile; 1 … 4 and 5 … 20 blades are told apart when reading.
inline constexpr WholeKey blades{"blades", 0, 20};
inline constexpr NumberKey widest_f_number{"widest_f_number", 0.5, 32};          // 1.2 … 4
inline constexpr NumberKey spherical_dpt{"spherical_dpt", -20, 20};              // ±0.05
inline constexpr NumberKey field_curvature_dpt{"field_curvature_dpt", -20, 20};  // ±0.05

// [viewing]
enum class Use { phone, album, wall, single_pixels };
inline constexpr WordKey<Use, 4> use{"use",
                                     {{{"phone", Use::phone},
                                       {"album", Use::album},
                                       {"wall", Use::wall},
                                       {"pixels", Use::single_pixels}}}};
[[nodiscard]] inline Viewing viewing_for(Use how) {
    switch (how) {
    case Use::phone:
        return optics::phone_viewing;
    case Use::album:
        return optics::album_viewing;
    case Use::wall:
        return optics::wall_viewing;
    case Use::single_pixels:
        break;
    }
    return PixelViewing{};
}
inline constexpr NumberKey print_long_side_cm{"print_long_side_cm", 1, 10'000};    // 14 … 90
inline constexpr NumberKey viewing_distance_cm{"viewing_distance_cm", 5, 10'000};  // 25 … 200

// [[row]]
inline constexpr NumberKey back_m{"back_m", -farthest_m, farthest_m};
inline constexpr NumberKey up_m{"up_m", -5, 100};
inline constexpr NumberKey spacing_m{"spacing_m", 0.05, 20};  // 0.45 … 0.9

// [[person]]; stature and age have their limits in figures/body_measures.h.
inline constexpr NumberKey stature_m{"stature_m", figures::least_stature_m,
                                     figures::greatest_stature_m};
inline constexpr NumberKey age_years{"age_years", figures::least_age_years,
                                     figures::greatest_age_years};
inline constexpr WordKey<figures::Sex, 2> sex{
    "sex", {{{"female", figures::Sex::female}, {"male", figures::Sex::male}}}};
inline constexpr WordKey<figures::Posture, 7> posture{
    "posture",
    {{{"standing", figures::Posture::standing},
      {"seated", figures::Posture::seated},
      {"kneeling", figures::Posture::kneeling},
      {"crouching", figures::Posture::crouching},
      {"kneeling_both", figures::Posture::kneeling_both},
      {"on_ground", figures::Posture::on_ground},
      {"on_step", figures::Posture::on_step}}}};
/// How a child sits whom `carried_by` names somebody for.
inline constexpr WordKey<figures::Posture, 2> carried{
    "carried",
    {{{"hip", figures::Posture::on_hip}, {"shoulders", figures::Posture::on_shoulders}}}};
inline constexpr WordKey<figures::Arms, 6> arms{
    "arms",
    {{{"down", figures::Arms::down},
      {"folded", figures::Arms::folded},
      {"behind", figures::Arms::behind},
      {"crossed", figures::Arms::crossed},
      {"round_neighbours", figures::Arms::round_neighbours},
      {"hand_on_shoulder", figures::Arms::hand_on_shoulder}}}};
inline constexpr WordKey<figures::Expression, 4> expression{
    "expression",
    {{{"neutral", figures::Expression::neutral},
      {"smile", figures::Expression::smile},
      {"laugh", figures::Expression::laugh},
      {"eyes_closed", figures::Expression::eyes_closed}}}};
inline constexpr NumbersKey<3> gaze{"gaze", "[across, up, back]", -farthest_m, farthest_m};
inline constexpr WordKey<figures::Hair, 5> hair{"hair",
                                                {{{"short", figures::Hair::short_cut},
                                                  {"long", figures::Hair::long_cut},
                                                  {"tied", figures::Hair::tied},
                                                  {"curly", figures::Hair::curly},
                                                  {"none", figures::Hair::none}}}};
inline constexpr WordKey<figures::Headwear, 3> headwear{
    "headwear",
    {{{"none", figures::Headwear::none},
      {"hat", figures::Headwear::hat},
      {"headscarf", figures::Headwear::headscarf}}}};
inline constexpr WordKey<figures::Top, 6> top{"top",
                                              {{{"shirt", figures::Top::shirt},
                                                {"blouse", figures::Top::blouse},
                                                {"jumper", figures::Top::jumper},
                                                {"tee", figures::Top::tee},
                                                {"jacket", figures::Top::jacket},
                                                {"dress", figures::Top::dress}}}};
inline constexpr WordKey<figures::Bottom, 2> bottom{
    "bottom", {{{"trousers", figures::Bottom::trousers}, {"skirt", figures::Bottom::skirt}}}};
// Words and #rrggbb: colours.h.
inline constexpr std::string_view top_colour = "top_colour";
inline constexpr std::string_view bottom_colour = "bottom_colour";
inline constexpr std::string_view headwear_colour = "headwear_colour";
inline constexpr NumberKey across_m{"across_m", -farthest_m, farthest_m};
inline constexpr NumberKey turn_deg{"turn_deg", -180, 180};
inline constexpr NumberKey head_turn_deg{"head_turn_deg", -80, 80};
inline constexpr NumberKey lean_m{"lean_m", -0.6, 0.6};
inline constexpr NumberKey lean_sideways_m{"lean_sideways_m", -0.6, 0.6};
inline constexpr NumberKey speed_mps{"speed_mps", 0, 12};  // walking 1.3
inline constexpr NumberKey heading_deg{"heading_deg", -360, 360};

// [setting]
inline constexpr WordKey<setting::Ground, 4> ground{"ground",
                                                    {{{"grass", setting::Ground::grass},
                                                      {"paving", setting::Ground::paving},
                                                      {"sand", setting::Ground::sand},
                                                      {"boards", setting::Ground::boards}}}};
inline constexpr WordKey<setting::BackdropKind, 10> backdrop_kind{
    "kind",
    {{{"wall", setting::BackdropKind::wall},
      {"hedge", setting::BackdropKind::hedge},
      {"trees", setting::BackdropKind::trees},
      {"lights", setting::BackdropKind::lights},
      {"water", setting::BackdropKind::water},
      {"bookshelf", setting::BackdropKind::bookshelf},
      {"hall", setting::BackdropKind::hall},
      {"beach", setting::BackdropKind::beach},
      {"street", setting::BackdropKind::street},
      {"photo", setting::BackdropKind::photo}}}};
inline constexpr WordKey<setting::Finish, 2> finish{
    "finish", {{{"brick", setting::Finish::brick}, {"plaster", setting::Finish::plaster}}}};
inline constexpr NumberKey backdrop_back_m{"back_m", 0.3, 400};
inline constexpr NumberKey photo_width_m{"width_m", 0.05, 2000};  // 3 … 60
inline constexpr NumberKey photo_up_m{"up_m", -100, 100};
inline constexpr NumberKey highlight_gain{"highlight_gain", 1, 100};  // 4 … 16
inline constexpr NumberKey panorama_turn_deg{"panorama_turn_deg", -360, 360};

// [[model]]
inline constexpr NumberKey model_turn_deg{"turn_deg", -360, 360};
inline constexpr NumberKey scale{"scale", 0.0001, 10'000};

// [odds]
inline constexpr NumberKey sway_mm{"sway_mm", 0, 500};
inline constexpr NumberKey sideways_sway_mm{"sideways_sway_mm", 0, 500};
inline constexpr NumberKey camera_sway_mm{"camera_sway_mm", 0, 500};
inline constexpr NumberKey autofocus_mm{"autofocus_mm", 0, 10'000};
inline constexpr NumberKey recompose_deg{"recompose_deg", 0, 45};  // 0 … 20
inline constexpr NumberKey line_up_mm{"line_up_mm", 0, 1000};      // 0 … 50
inline constexpr NumberKey delay_s{"delay_s", 0, 10};              // 0 … 0.3
inline constexpr NumberKey blinks_per_min{"blinks_per_min", 0, 60};
inline constexpr NumberKey blink_s{"blink_s", 0, 1};

// [light]
inline constexpr NumberKey scene_ev100{"scene_ev100", -10, 25};  // 5 … 15
inline constexpr NumberKey sun_elevation_deg{"sun_elevation_deg", -90, 90};
inline constexpr NumberKey sun_azimuth_deg{"sun_azimuth_deg", -360, 360};
inline constexpr WordKey<LightKind, 2> light_kind{
    "kind", {{{"open", LightKind::open}, {"window", LightKind::window}}}};
inline constexpr NumberKey window_azimuth_deg{"window_azimuth_deg", -360, 360};
inline constexpr NumberKey window_distance_m{"window_distance_m", 0.5, 50};  // 1.5 … 6
inline constexpr NumberKey window_width_m{"window_width_m", 0.1, 20};        // 1 … 4
inline constexpr NumberKey window_height_m{"window_height_m", 0.1, 20};      // 1 … 3
inline constexpr NumberKey window_sill_m{"window_sill_m", 0, 20};            // 0 … 1.2

/// The word of a file that stands for this value.
template <class Value, std::size_t N>
[[nodiscard]] constexpr std::string_view word_for(const WordKey<Value, N>& key, Value value) {
    for (const auto& [word, meaning] : key.words)
        if (meaning == value)
            return word;
    return {};
}

}  // namespace backrow::scene::keys
