#pragma once

// What varies from one frame to the next, and when a face still holds: the numbers that both ways
// of working out the odds (odds_by_trials.h, odds_by_integration.h) start from.
//
// Distances are axial and in metres. Everything drawn is Gaussian. Three things are common to a
// frame: the camera's own sway shifts all distances, and the autofocus lands the plane of focus
// before or behind. The rest belongs to each person alone.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/depth_of_field.h"
#include "optics/viewing.h"

#include "base/units.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::plan {

/// One source of error, as it can be left out.
enum class Lapse { sway, camera, autofocus, recompose, line_up, blinks, motion };

/// The same scene without it.
[[nodiscard]] scene::Scene without(scene::Scene scene, Lapse lapse);

/// A face as it varies.
struct VaryingFace {
    std::string name;
    double axial_m = 0;   ///< The nearer eye in the middle of the exposure, on average.
    double spread_m = 0;  ///< Standard deviation about it, ≥ 0.
    int sways_with = -1;  ///< Whose error it shares, index into FrameModel::faces; −1 nobody's.
    double vergence_dpt = 0;  ///< What the lens adds to 1/s for this face.
    double streak_mm = 0;     ///< On the sensor, for movement across.
    bool can_hold = false;    ///< In front of the lens, and the streak alone is not too long.
    double room_mm2 = 0;      ///< Square of the blur that defocus may use, beside the streak.
};

struct FrameModel {
    double focal_length_mm = 0;
    double f_number = 0;
    double focus_m = 0;               ///< Where the focus lands on average.
    double focus_spread_m = 0;        ///< Autofocus.
    double camera_spread_m = 0;       ///< The photographer.
    double spherical_spread_dpt = 0;  ///< a/√18 of lens_profile.h: what is left at best focus.
    double limit_mm = 0;              ///< Largest blur within the grade.
    double eyes_open_each = 1;        ///< Chance that one person's eyes are open.
    std::vector<VaryingFace> faces;   ///< In the order of Scene::people.
};

/// How each source enters:
/// - sway: √((forward sway · a)² + (sideways sway · b)²) along the axis, a and b the axial parts of
///   the body's own forward and sideways directions, so somebody who stands in profile sways across
///   the picture forward and back, and along the axis sideways. Forward and back on the feet only;
///   the seated by half, kneeling and crouching by seven tenths: estimates, by how high the head is
///   over the joint that the body swings about.
///   Whoever is carried sways with the carrier: the same error in every frame.
/// - lining up: added as squares.
/// - camera: along the axis; the plane of focus moves with it.
/// - recompose: the plane lands behind by optics::recompose_error_m().
/// - motion: the face is met where it is in the middle of the exposure, delay_s + shutter_s/2 after
///   the lock; the streak comes from the rate at which its image moves over the sensor.
/// - blinks: 1 − rate·(blink_s + shutter_s), not below 0 [SVENSON2006].
[[nodiscard]] FrameModel frame_model(const scene::Scene& scene, const scene::CameraView& view,
                                     optics::Grade grade);

/// What the lens adds to 1/s at its best focus, two thirds of ρ² from the middle of the opening to
/// the edge where there is spherical aberration.
///
/// image_height  0 centre … 1 corner
[[nodiscard]] double best_focus_dpt(const scene::CameraView& view, double image_height);

/// The lens with its focus where it landed in one frame.
struct LandedLens {
    double focus_dpt = 0;          ///< 1/s
    double one_over_gain_mm2 = 0;  ///< 1/(v D)²; the blur is v D times the vergence error.
};

/// Nothing where no image forms, focused within the focal length.
[[nodiscard]] inline std::optional<LandedLens> landed(const FrameModel& model, double focus_m) {
    const double focal_m = m_from_mm(model.focal_length_mm);
    if (!(focus_m > focal_m))
        return std::nullopt;
    const double one_over_v_mm = (focus_m - focal_m) / (model.focal_length_mm * focus_m);
    const double one_over_d = model.f_number / focal_m;
    return LandedLens{.focus_dpt = 1 / focus_m,
                      .one_over_gain_mm2 = one_over_v_mm * one_over_v_mm * one_over_d * one_over_d};
}

/// Whether a face at this distance is within the grade; axial_m may have any value.
[[nodiscard]] inline bool holds(const FrameModel& model, const VaryingFace& face,
                                const LandedLens& lens, double axial_m) {
    const double error_dpt = lens.focus_dpt + face.vergence_dpt - 1 / axial_m;
    return axial_m > 0 &&
           error_dpt * error_dpt + model.spherical_spread_dpt * model.spherical_spread_dpt <=
               face.room_mm2 * lens.one_over_gain_mm2;
}

/// The distances between which holds() is true; nothing where there are none.
[[nodiscard]] std::optional<optics::AxialRange>
zone(const FrameModel& model, const VaryingFace& face, const LandedLens& lens);

}  // namespace backrow::plan
