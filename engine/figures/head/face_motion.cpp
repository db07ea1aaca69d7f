#include "figures/head/face_motion.h"

#include "figures/head/head_form.h"
#include "figures/head/head_frame.h"

#include "base/units.h"

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// About what the jaw turns: its joints slide forward as it opens, so the middle of the turn lies
/// below them. By eye.
constexpr double jaw_axis_y_mm = -55.0;
constexpr double jaw_axis_z_mm = 5.0;

/// Shut, the lids meet this far above the lower one's place at rest, as a share of the opening.
constexpr double lid_meeting = 0.16;

/// How far up and down the skin of a lid is drawn along.
constexpr double upper_lid_reach_mm = 15.0;
constexpr double lower_lid_reach_mm = 12.0;

/// 1 in the middle of the mouth, 0 from its corners on.
double along_mouth(double x) {
    const double t = x / mouth_half_width_mm;
    return t < 1 ? std::pow(1 - t * t, 0.62) : 0.0;
}

void part_lips(dvec3& p, double x, double y, const FaceMotion& m) {
    const double line = mouth_line_y_mm(x);
    const double middle = along_mouth(x);
    const bool upper = y > line;
    // The jaw takes chin and lower lip whole, cheeks less and less, the upper lip not at all.
    const double cheek = 1 - glm::smoothstep(-96.0, -46.0, y);
    const double share =
        upper ? cheek * (1 - middle * hill((y - line) / 30.0)) : glm::mix(cheek, 1.0, middle);
    const double behind = glm::smoothstep(-5.0, 40.0, p.z);
    p = glm::mix(p, turned_with_jaw_mm(p, m.jaw_deg), share * behind);
    const double front = glm::smoothstep(20.0, 50.0, p.z);
    const double off = (y - line) / (upper ? 15.0 : 13.0);
    p.y += m.parted_mm * (upper ? 0.36 : -0.64) * middle * hill(off) * front;
}

void smile(dvec3& p, double x, double y, double amount) {
    const double front = glm::smoothstep(0.0, 45.0, p.z);
    const double line = mouth_line_y_mm(x);
    const double s = amount * front;
    const double near_line = hill((y - line) / 15.0);
    // The corners go out, up and back round the teeth; lips are drawn thin.
    const double corner = hill((x - 27.0) / 14.0) * hill((y - line + 1.0) / 14.0);
    p.y += s * 5.6 * corner;
    p.z -= s * 4.6 * corner;
    p.x *= 1 + s * 0.17 * near_line * hill(x / 38.0);
    p.y -= s * 0.22 * (y - line) * hill((y - line) / 9.0) * hill(x / 28.0);
    p.y += s * 1.2 * hill(x / 22.0) * near_line;
    p.z -= s * 1.3 * hill(x / 22.0) * near_line;
    // Cheeks rise and fill, the fold beside them deepens, wings of the nose spread.
    const double cheek = hill((x - 37.0) / 14.0) * hill((y + 33.0) / 13.0);
    p.z += s * 4.4 * cheek;
    p.y += s * 3.0 * cheek;
    const double fold_x = 23.0 + 12.0 * glm::smoothstep(-40.0, -66.0, y);
    p.z -= s * 2.0 * hill((x - fold_x) / 4.0) * glm::smoothstep(-78.0, -64.0, y) *
           (1 - glm::smoothstep(-46.0, -38.0, y));
    p.x *= 1 + s * 0.06 * hill((x - 12.0) / 8.0) * hill((y + 39.0) / 9.0);
}

void move_lids(dvec3& p, double x, double y, const FaceMotion& m) {
    const double dx = x - model::pupil_x;
    const double t = std::clamp(dx, inner_corner_x_mm, outer_corner_x_mm);
    const double upper = upper_lid_y_mm(t), lower = lower_lid_y_mm(t);
    const double beside = hill((dx - t) / 3.0);
    const bool above = y > (upper + lower) / 2;
    const double off = above ? (y - upper) / upper_lid_reach_mm : (lower - y) / lower_lid_reach_mm;
    if (off >= 1 || beside < 1e-4)
        return;
    const double left = 1 - std::max(0.0, off);
    const double shift = above ? upper_edge_y_mm(t, m) - upper : lower_edge_y_mm(t, m) - lower;
    p.y += shift * left * left * beside;
    // Skin that slides over the ball lies on it.
    const double shell = eye_shell_mm(0.96 * dx, p.y, 1.3);
    if (shift != 0 && shell > 0)
        p.z = std::max(p.z, eye_middle_z_mm + shell);
}

void frown(dvec3& p, double x, double y, double amount) {
    const double s = amount * glm::smoothstep(0.0, 45.0, p.z);
    const double at_brow = hill((y - 20) / 8.5);
    p.y -= s * (2.0 + 1.2 * hill((x - 14) / 10.0)) * at_brow;
    p.x -= s * 1.6 * hill((x - 15) / 8.0) * at_brow;
    p.z += s * 0.8 * hill((x - 12) / 8.0) * hill((y - 17) / 6.0);
    // Cheeks come up to meet them.
    const double cheek = hill((x - 36.0) / 14.0) * hill((y + 30.0) / 11.0);
    p.y += s * 1.6 * cheek;
    p.z += s * 1.4 * cheek;
}

}  // namespace

FaceMotion motion_of(std::optional<Expression> expression, double own_smile, double eyes_up_deg,
                     double glare) {
    FaceMotion m;
    if (!expression || *expression == Expression::eyes_closed)
        m = {.smile = 0.42 * own_smile};
    else if (*expression == Expression::smile)
        m = {.smile = 0.92, .parted_mm = 6.0, .jaw_deg = 1.5, .upper_lid = 0.06, .lower_lid = 0.10};
    else if (*expression == Expression::laugh)
        m = {.smile = 1.1, .parted_mm = 6.5, .jaw_deg = 9.0, .upper_lid = 0.16, .lower_lid = 0.20};
    // Upper lids follow the eyes: half shut over eyes that look down as far as they go.
    m.upper_lid += eyes_up_deg < 0 ? -0.017 * eyes_up_deg : -0.014 * eyes_up_deg;
    m.upper_lid += 0.17 * glare;
    m.lower_lid += 0.17 * glare;
    m.frown = glare;
    if (expression == Expression::eyes_closed) {
        m.upper_lid = 1;
        m.lower_lid = lid_meeting;
    }
    return m;
}

dvec3 turned_with_jaw_mm(const dvec3& model_mm, double jaw_deg) {
    const double a = rad_from_deg(jaw_deg);
    const double up = model_mm.y - jaw_axis_y_mm, forward = model_mm.z - jaw_axis_z_mm;
    return {model_mm.x, jaw_axis_y_mm + up * std::cos(a) - forward * std::sin(a),
            jaw_axis_z_mm + forward * std::cos(a) + up * std::sin(a)};
}

dvec3 moved_mm(const dvec3& model_mm, const FaceMotion& motion) {
    if (model_mm.z < -5)
        return model_mm;
    const double x = std::abs(model_mm.x), y = model_mm.y;
    dvec3 p{x, y, model_mm.z};
    if (motion.is_mouth_open())
        part_lips(p, x, y, motion);
    if (motion.smile != 0)
        smile(p, x, y, motion.smile);
    if (motion.frown != 0)
        frown(p, x, y, motion.frown);
    if ((motion.upper_lid != 0 || motion.lower_lid != 0) && p.z > 30)
        move_lids(p, x, y, motion);
    p.x = std::copysign(p.x, model_mm.x);
    return p;
}

double lower_edge_y_mm(double x_mm, const FaceMotion& motion) {
    return glm::mix(lower_lid_y_mm(x_mm), upper_lid_y_mm(x_mm), motion.lower_lid);
}

double upper_edge_y_mm(double x_mm, const FaceMotion& motion) {
    return glm::mix(upper_lid_y_mm(x_mm), lower_edge_y_mm(x_mm, motion), motion.upper_lid);
}

}  // namespace backrow::figures
