#include "figures/head_form.h"
#include "figures/head_mesh.h"

#include <glm/common.hpp>

#include <cmath>

namespace backrow::figures {

using glm::dvec3;

PersonHead::PersonHead(const Person& person, const Skeleton& skeleton, const FaceTraits& traits)
    : frame_{person.measures}, traits_{traits},
      childhood_{skeleton.build.childhood}, origin_m_{skeleton.head_m}, axes_{skeleton.head} {}

dvec3 PersonHead::figure_from_plain_model(const dvec3& model_mm) const {
    return origin_m_ + axes_ * frame_.head_from_model(model_mm);
}

// Variations are small shifts, each fading out round its feature, so that features keep their
// relief. None reaches the pupils, the crown, or the height of the chin.
dvec3 PersonHead::figure_from_model(const dvec3& model_mm) const {
    const FaceTraits& t = traits_;
    const double x = std::abs(model_mm.x), y = model_mm.y;
    const double front = glm::smoothstep(0.0, 45.0, model_mm.z);
    dvec3 p{x, y, model_mm.z};

    const double grown = 1 - childhood_;
    // Jaw and cheeks.
    const double lower = 1 - glm::smoothstep(-85.0, -25.0, y);
    p.x *= 1 + (0.055 * t.jaw_width * grown + 0.02 * childhood_) * lower;
    p.x += (1.2 * t.cheek_fullness + 4.0 * childhood_) * hill((y + 56) / 26.0) *
           glm::smoothstep(14.0, 42.0, x) * front;
    p.z += (1.3 * t.cheek_fullness + 3.6 * childhood_) * hill((x - 34) / 18.0) *
           hill((y + 52) / 22.0) * front;
    p.z += (1.4 * t.chin_length * grown - 2.5 * childhood_) * hill(x / 17.0) *
           hill((y + 100) / 13.0) * front;
    // Nose: a child's is short, low and turned up.
    const double at_nose = hill(x / 19.0) * front;
    const double at_tip = at_nose * hill((y + 39) / 11.0);
    p.x *= 1 + (0.13 * t.nose_width + 0.04 * childhood_) * at_tip;
    p.y += (-1.7 * t.nose_length + 1.6 * childhood_) * at_tip;
    p.z += (1.2 * t.nose_length - 4.6 * childhood_) * hill(x / 11.0) * hill((y + 36) / 9.0) * front;
    p.z += (1.5 * t.nose_bridge - 2.4 * childhood_) * hill(x / 8.0) * hill((y + 12) / 15.0) * front;
    // Mouth.
    const double line = mouth_line_y_mm(x);
    const double at_mouth = hill((y - line) / 12.0) * hill(x / 32.0) * front;
    p.y += 0.20 * t.lip_fullness * (y - line) * hill((y - line) / 9.0) * hill(x / 28.0) * front;
    p.x *= 1 + (0.05 * t.mouth_width + 0.045 * t.smile - 0.03 * childhood_) * at_mouth;
    const double corner = hill((x - 25) / 9.5) * hill((y - line) / 11.0) * front;
    p.y += 2.3 * t.smile * corner;
    p.z -= 1.0 * t.smile * corner;
    p.z += 1.3 * t.smile * hill((x - 38) / 14.0) * hill((y + 37) / 11.0) * front;
    // Eyes and brows.
    const double dx = x - model::pupil_x;
    const double at_eye = hill(dx / 20.0) * hill(y / 13.0) * front;
    p.y += (0.06 * t.eye_opening * y + 0.055 * t.eye_slant * dx) * at_eye;
    const double at_brow = hill((y - 19) / 8.0) * front;
    p.y += (1.3 * t.brow_height + 0.9 * t.brow_arch * hill((x - 40) / 13.0)) * at_brow;
    const double ridge = glm::clamp(-0.9 * t.brow_height + 0.6 * t.jaw_width, -1.0, 1.5) * grown;
    p.z += (1.1 * ridge - 1.6 * childhood_) * hill((y - 15) / 8.0) * hill(x / 42.0) * front;

    p.x = std::copysign(p.x, model_mm.x);
    return figure_from_plain_model(p);
}

}  // namespace backrow::figures
