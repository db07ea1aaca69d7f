#include "figures/head/head_form.h"
#include "figures/head/head_mesh.h"

#include "base/units.h"

#include <glm/common.hpp>
#include <glm/matrix.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {

using glm::dvec3;

PersonHead::PersonHead(const Person& person, const Skeleton& skeleton, const FaceTraits& traits,
                       double glare)
    : frame_{person.measures}, traits_{traits},
      childhood_{skeleton.build.childhood}, origin_m_{skeleton.head_m}, axes_{skeleton.head} {
    if (person.pose.looks_at_m)
        for (const int side : {0, 1}) {
            const dvec3 eye = figure_from_plain_model(
                {side == 0 ? model::pupil_x : -model::pupil_x, 0, eye_middle_z_mm});
            const dvec3 way = glm::transpose(axes_) * (*person.pose.looks_at_m - eye);
            // Eyes do not turn to what lies behind the head; they go as far as they can.
            const double left = deg_from_rad(std::atan2(way.x, way.z));
            const double up = deg_from_rad(std::atan2(way.y, std::hypot(way.x, way.z)));
            eyes_[static_cast<std::size_t>(side)] = {
                std::clamp(left, -most_eye_turn_deg, most_eye_turn_deg),
                std::clamp(up, -most_eye_rise_deg, most_eye_rise_deg)};
        }
    motion_ = motion_of(person.pose.expression, traits_.smile,
                        (eyes_[0].up_deg + eyes_[1].up_deg) / 2, glare);
    // With the years lids grow heavy.
    if (!motion_.are_eyes_shut())
        motion_.upper_lid += 0.10 * traits_.years;
}

dvec3 PersonHead::figure_from_plain_model(const dvec3& model_mm) const {
    return origin_m_ + axes_ * frame_.head_from_model(model_mm);
}

dvec3 PersonHead::figure_from_model(const dvec3& model_mm) const {
    return figure_from_moved_model(moved_mm(model_mm, motion_));
}

// Variations are small shifts, each fading out round its feature, so that features keep their
// relief. None reaches the pupils, the crown, or the height of the chin.
dvec3 PersonHead::figure_from_moved_model(const dvec3& model_mm) const {
    const FaceTraits& t = traits_;
    const double x = std::abs(model_mm.x), y = model_mm.y;
    const double front = glm::smoothstep(0.0, 45.0, model_mm.z);
    dvec3 p{x, y, model_mm.z};

    const double grown = 1 - childhood_;
    // Jaw and cheeks.
    const double lower = 1 - glm::smoothstep(-85.0, -25.0, y);
    p.x *= 1 + (0.095 * t.jaw_width * grown - 0.085 * childhood_) * lower;
    if (front <= 0) {  // The back of the head has no other features.
        p.x = std::copysign(p.x, model_mm.x);
        return figure_from_plain_model(p);
    }
    p.x += 4.0 * t.cheekbone * hill((y + 22) / 17.0) * glm::smoothstep(30.0, 58.0, x) * front;
    p.x *= 1 + (0.20 * t.chin_width * grown - 0.10 * childhood_) * hill((y + 104) / 15.0) *
                   hill(x / 30.0) * front;
    // A child's cheeks are full and lie high, over a small jaw and a chin that stands back.
    p.x += 2.8 * t.cheek_fullness * hill((y + 56) / 26.0) * glm::smoothstep(14.0, 42.0, x) * front;
    p.x += 4.0 * childhood_ * hill((y + 45) / 20.0) * glm::smoothstep(14.0, 42.0, x) * front;
    p.z += 2.4 * t.cheek_fullness * hill((x - 34) / 18.0) * hill((y + 52) / 22.0) * front;
    p.z += 4.6 * childhood_ * hill((x - 33) / 17.0) * hill((y + 46) / 19.0) * front;
    p.z += (3.2 * t.chin_length * grown - 5.0 * childhood_) * hill(x / 19.0) *
           hill((y + 100) / 15.0) * front;
    // Nose: a child's is short, low and turned up.
    const double at_nose = hill(x / 19.0) * front;
    const double at_tip = at_nose * hill((y + 39) / 11.0);
    p.x *= 1 + (0.23 * t.nose_width + 0.02 * childhood_) * at_tip;
    p.x *= 1 + 0.17 * t.nose_tip * hill(x / 10.0) * hill((y + 36) / 7.0) * front;
    p.y += (-3.0 * t.nose_length - 2.0 * t.years + 2.6 * childhood_) * at_tip;
    p.z += (1.6 * t.nose_length - 5.2 * childhood_) * hill(x / 11.0) * hill((y + 36) / 9.0) * front;
    p.z += 2.1 * t.nose_hump * grown * hill(x / 7.0) * hill((y + 17) / 8.0) * front;
    p.z += (2.6 * t.nose_bridge - 3.0 * childhood_) * hill(x / 8.0) * hill((y + 12) / 15.0) * front;
    // Mouth.
    const double line = mouth_line_y_mm(x);
    const double at_mouth = hill((y - line) / 12.0) * hill(x / 32.0) * front;
    p.y += (0.30 * t.lip_fullness - 0.26 * t.years + 0.06 * childhood_) * (y - line) *
           hill((y - line) / 9.0) * hill(x / 28.0) * front;
    p.x *= 1 + (0.095 * t.mouth_width - 0.07 * childhood_) * at_mouth;
    p.y += 2.2 * t.mouth_height * hill((y + 68) / 16.0) * hill(x / 46.0) * front;
    // Years draw folds beside the mouth, hollow the cheeks and let the jaw sag.
    const double fold_x = 22.0 + 11.0 * glm::smoothstep(-40.0, -68.0, y);
    const double at_fold =
        glm::smoothstep(-84.0, -70.0, y) * (1 - glm::smoothstep(-46.0, -38.0, y));
    p.z -= 1.7 * t.years * hill((x - fold_x) / 3.6) * at_fold * front;
    p.z += 1.2 * t.years * hill((x - fold_x - 7.0) / 6.0) * at_fold * front;
    p.z -= 2.6 * t.years * hill((x - 44) / 12.0) * hill((y + 52) / 14.0) * front;
    p.x += 3.2 * t.years * hill((y + 90) / 12.0) * glm::smoothstep(18.0, 36.0, x) * front;
    // Eyes and brows.
    const double dx = x - model::pupil_x;
    const double at_eye = hill(dx / 20.0) * hill(y / 13.0) * front;
    p.y += ((0.10 * t.eye_opening + 0.10 * childhood_) * y + 0.085 * t.eye_slant * dx) * at_eye;
    // Bags below, and the sky's shade above deep eyes; the lids stay on the ball.
    p.z += 1.7 * t.years * hill((dx + 1) / 11.0) * hill((y + 12) / 3.4) * front;
    p.z += 1.6 * t.eye_depth * grown * hill((x - 34) / 26.0) * hill((y - 17) / 7.0) * front;
    p.z += (2.4 * t.forehead - 1.4 * t.years) * hill((y - 52) / 24.0) * hill(x / 50.0) * front;
    const double at_brow = hill((y - 19) / 8.0) * front;
    p.y += (2.3 * t.brow_height + 1.6 * t.brow_arch * hill((x - 40) / 13.0)) * at_brow;
    const double ridge = glm::clamp(-0.9 * t.brow_height + 0.6 * t.jaw_width, -1.0, 1.5) * grown;
    p.z += (1.1 * ridge - 1.6 * childhood_) * hill((y - 15) / 8.0) * hill(x / 42.0) * front;

    p.x = std::copysign(p.x, model_mm.x);
    return figure_from_plain_model(p);
}

}  // namespace backrow::figures
