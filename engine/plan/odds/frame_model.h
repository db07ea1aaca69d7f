#pragma once

// What varies from one frame to the next, and when a face still holds: the numbers that both ways
// of working out the odds (odds_by_trials.h, odds_by_integration.h) start from.
//
// Distances are axial and in metres. Everything drawn is Gaussian. Three things are common to a
// frame: the camera's own sway shifts all distances, and the autofocus lands the plane of focus
// before or behind. The rest belongs to each person alone.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/blur/sharp_zone.h"
#include "optics/blur/viewing.h"
#include "optics/lens/lens.h"
#include "optics/lens/spot.h"

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
    double axial_m = 0;     ///< The nearer eye in the middle of the exposure, on average.
    double spread_m = 0;    ///< Standard deviation about it, ≥ 0.
    int sways_with = -1;    ///< Whose error it shares, index into FrameModel::faces; −1 nobody's.
    optics::Spot spot{};    ///< What the lens makes of a point at this face's place.
    double streak_mm = 0;   ///< On the sensor, for movement across.
    bool can_hold = false;  ///< In front of the lens, and neither diffraction alone nor the
                            ///< streak beside it is too much.
    double room_mm2 = 0;    ///< Square of the blur that defocus may use beside these.
};

struct FrameModel {
    optics::Lens lens;
    double focus_m = 0;              ///< Where the focus lands on average.
    double focus_spread_m = 0;       ///< Autofocus.
    double camera_spread_m = 0;      ///< The photographer.
    double eyes_open_each = 1;       ///< Chance that one person's eyes are open.
    std::vector<VaryingFace> faces;  ///< In the order of Scene::people.
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

/// The lens with its focus where it landed in one frame; nothing where no image forms.
[[nodiscard]] inline std::optional<optics::FocusedVergence> landed(const FrameModel& model,
                                                                   double focus_m) {
    return optics::vergence_at(model.lens, focus_m);
}

/// Whether a face at this distance is within the grade; axial_m may have any value.
[[nodiscard]] inline bool holds(const VaryingFace& face, const optics::FocusedVergence& landed,
                                double axial_m) {
    return face.can_hold && optics::holds(landed, face.spot, face.room_mm2, axial_m);
}

/// The distances between which holds() is true; nothing where there are none.
[[nodiscard]] std::optional<optics::AxialRange> zone(const VaryingFace& face,
                                                     const optics::FocusedVergence& landed);

}  // namespace backrow::plan
