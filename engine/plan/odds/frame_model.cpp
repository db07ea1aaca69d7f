#include "plan/odds/frame_model.h"

#include "plan/faces/facing.h"
#include "plan/odds/image_motion.h"
#include "scene/judged_blur.h"

#include "optics/blur/motion.h"
#include "optics/blur/recompose.h"

#include "base/units.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::plan {
namespace {

constexpr double seconds_in_a_minute = 60;

/// Share of a standing person's sway. Estimates: a body swings about the ankles when it stands, the
/// hips when it sits, the knees when it kneels, and its head is that much lower above them.
double share_of_standing_sway(figures::Posture posture) {
    switch (posture) {
    case figures::Posture::standing:
    case figures::Posture::on_hip:  // As whoever carries, who stands.
    case figures::Posture::on_shoulders:
        return 1;
    case figures::Posture::seated:
        return 0.5;
    case figures::Posture::kneeling:
    case figures::Posture::crouching:
    case figures::Posture::kneeling_both:
        return 0.7;
    case figures::Posture::on_ground:
    case figures::Posture::on_step:
        break;
    }
    return 0.5;
}

double spread_m(const scene::Odds& odds, const scene::Person& person,
                const scene::CameraView& view) {
    const double share = share_of_standing_sway(person.pose.posture);
    const double turn_deg = person.pose.turn_deg;
    const double forward = glm::dot(facing(turn_deg), view.forward);
    const double sideways = glm::dot(facing(turn_deg + 90), view.forward);
    return m_from_mm(std::hypot(share * odds.sway_mm * forward,
                                share * odds.sideways_sway_mm * sideways, odds.line_up_mm));
}

VaryingFace varying_face(const scene::Scene& scene, const scene::CameraView& view,
                         const scene::Person& person, std::optional<double> limit_mm) {
    const double shutter_s = scene.camera.shutter_s;
    const glm::dvec3 walk = walk_mps(person);
    const glm::dvec3 eye_m =
        nearer_eye_m(view, person) + walk * (scene.odds.delay_s + shutter_s / 2);
    const scene::Seen eye = project(view, eye_m);
    VaryingFace face{.name = person.name,
                     .axial_m = eye.axial_m,
                     .spread_m = spread_m(scene.odds, person, view),
                     .sways_with = person.carrier};
    if (eye.axial_m <= 0 || !limit_mm)
        return face;
    face.spot = optics::spot_at(view.focused(), eye.image_height);
    const ImageMotion motion = image_motion(view, eye_m, walk);
    face.streak_mm = optics::streak_mm(motion.magnification, motion.speed_mps, shutter_s);
    const double streak_alone_mm = optics::spot_with_streak_mm(0, face.streak_mm);
    face.room_mm2 = *limit_mm * *limit_mm - streak_alone_mm * streak_alone_mm;
    face.can_hold = face.room_mm2 >= 0;
    return face;
}

/// The focused distance is axial in the final framing; it was a straight line when it was locked.
double landed_focus_m(double focus_m, double recompose_deg) {
    const double range_m = focus_m / std::cos(rad_from_deg(recompose_deg));
    return focus_m + optics::recompose_error_m(range_m, recompose_deg);
}

}  // namespace

scene::Scene without(scene::Scene scene, Lapse lapse) {
    scene::Odds& odds = scene.odds;
    switch (lapse) {
    case Lapse::sway:
        odds.sway_mm = 0;
        odds.sideways_sway_mm = 0;
        break;
    case Lapse::camera:
        odds.camera_sway_mm = 0;
        break;
    case Lapse::autofocus:
        odds.autofocus_mm = 0;
        break;
    case Lapse::recompose:
        odds.recompose_deg = 0;
        break;
    case Lapse::line_up:
        odds.line_up_mm = 0;
        break;
    case Lapse::blinks:
        odds.blinks_per_min = 0;
        break;
    case Lapse::motion:
        for (scene::Person& person : scene.people)
            person.speed_mps = 0;
        break;
    }
    return scene;
}

FrameModel frame_model(const scene::Scene& scene, const scene::CameraView& view,
                       optics::Grade grade) {
    const scene::Odds& odds = scene.odds;
    const double blinks_per_s = odds.blinks_per_min / seconds_in_a_minute;
    FrameModel model{.lens = view.focused(),
                     .focus_m = landed_focus_m(view.lens.focus_m, odds.recompose_deg),
                     .focus_spread_m = m_from_mm(odds.autofocus_mm),
                     .camera_spread_m = m_from_mm(odds.camera_sway_mm),
                     .eyes_open_each =
                         std::max(0.0, 1 - blinks_per_s * (odds.blink_s + scene.camera.shutter_s)),
                     .faces = {}};
    const auto limit_mm = blur_limit_mm(grade, scene, view);
    for (const scene::Person& person : scene.people)
        model.faces.push_back(varying_face(scene, view, person, limit_mm));
    return model;
}

std::optional<optics::AxialRange> zone(const VaryingFace& face,
                                       const optics::FocusedVergence& landed) {
    if (!face.can_hold)
        return std::nullopt;
    return optics::holding_zone(landed, face.spot, face.room_mm2);
}

}  // namespace backrow::plan
