#include "figures/head/head_form.h"

#include "figures/body/flesh.h"
#include "figures/body/smooth_curve.h"
#include "figures/head/head_frame.h"
#include "figures/head/summit.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;

double oval(const dvec3& p, const dvec3& middle, const dvec3& radii) {
    // Close to a distance near the surface: value over slope.
    const dvec3 q = (p - middle) / radii;
    const double k = glm::length(q);
    const double slope = glm::length(q / radii);
    return slope > 0 ? k * (k - 1) / slope : -std::min({radii.x, radii.y, radii.z});
}

/// Skull, jaw and cheeks before they are brought to size.
double rough_form(const dvec3& at) {
    const dvec3 p{std::abs(at.x), at.y, at.z};
    double d = oval(p, {0, 34, -9.2}, {76, 80, 96.2});
    d = smooth_min(d, oval(p, {0, 36, 36}, {57, 58, 53}), 22);    // forehead
    d = smooth_min(d, oval(p, {0, -34, 36}, {55, 70, 52}), 22);   // middle of the face
    d = smooth_min(d, oval(p, {46, -18, 40}, {20, 18, 30}), 22);  // cheekbone
    d = smooth_min(d, oval(p, {40, -52, 8}, {14, 30, 24}), 24);   // corner of the jaw
    d = smooth_min(d, RoundedCone{{38, -70, 14}, {11, -101, 68}, 11, 12}.distance_m(p), 20);
    d = smooth_min(d, oval(p, {27, -66, 42}, {19, 24, 26}), 18);  // lower cheek
    d = smooth_min(d, oval(p, {0, -92, 66}, {21, 22, 24}), 20);   // chin
    return d;
}

dvec3 rough_along(const dvec3& direction, const dvec3& from, double start) {
    double t = start;
    for (int i = 0; i < 60; ++i) {
        const double d = rough_form(from + direction * t);
        t -= 0.85 * d;
        if (std::abs(d) < 1e-4)
            break;
    }
    return from + direction * t;
}

/// Factors that bring the rough form to the model's crown, chin and breadth.
struct Fit {
    double across, above, below;
};

const Fit& fit() {
    static const Fit made = [] {
        // The head is round enough that crown and chin are each one summit of the profile, by steps
        // of the angle round it, 0 straight ahead; and it is broadest in one place of a level.
        constexpr int round = 2000, quarter = round / 4;
        const auto along = [](int step) {
            const double a = step * (2 * 3.14159265358979 / round);
            return dvec2{std::sin(a), std::cos(a)};
        };
        const auto profile_y = [&](int step) {
            return rough_along({0, along(step)}, head_middle_mm, 170).y;
        };
        const double top = summit(quarter / 3, 5 * quarter / 3, profile_y).value;
        const double bottom = -summit(7 * quarter / 3, 11 * quarter / 3, [&](int step) {
                                   return -profile_y(step);
                               }).value;
        // Heads are broadest above the ears.
        double side = 0;
        for (const double y : {20.0, 30.0, 40.0}) {
            const auto breadth = [&](int step) {
                const dvec2 level = along(step);
                return rough_along({level.x, 0, level.y}, {0, y, 8}, 170).x;
            };
            side = std::max(side, summit(quarter / 3, 5 * quarter / 3, breadth).value);
        }
        return Fit{model::half_breadth / side, model::crown_y / top, model::chin_y / bottom};
    }();
    return made;
}

dvec3 fitted(const dvec3& rough) {
    return {rough.x * fit().across, rough.y * (rough.y > 0 ? fit().above : fit().below), rough.z};
}

dvec3 unfitted(const dvec3& made) {
    return {made.x / fit().across, made.y / (made.y > 0 ? fit().above : fit().below), made.z};
}

/// Height of the nose's ridge over the face, and its half width, by y.
double nose_ridge(double y) {
    static const SmoothCurve<11> height{
        {-52, -48, -45.5, -42, nose_tip_y_mm, -32, -23, -11, 0, 9, 18},
        {0, 1.0, 5.2, 12.4, 16.0, 15.2, 11.6, 7.4, 3.9, 2.0, 0}};
    return height.held(y);
}
double nose_half_width(double y) {
    static const SmoothCurve<6> width{{-48, -38, -28, -14, 0, 14}, {6.0, 9.4, 8.2, 7.4, 8.6, 13.0}};
    return width.held(y);
}

double nose(double x, double y) {
    const double u = x / nose_half_width(y);
    double z = nose_ridge(y) * std::exp(-std::pow(u, 2.0) * 0.95);
    // Wings, the crease behind them, and the nostrils' hollow under the tip.
    z = std::max(z, 0.0);
    z += 7.0 * hill((x - 12.4) / 5.4) * hill((y + 39.0) / 5.6);
    z -= 1.4 * hill((x - 19.5) / 2.6) * hill((y + 38.5) / 6.0);
    z += 1.6 * hill(x / 6.5) * hill((y + 37.5) / 5.0);
    z -= 2.4 * hill((x - 7.0) / 3.0) * hill((y + 45.4) / 1.8);
    return z;
}

double mouth(double x, double y) {
    double z = 3.6 * hill(x / 27.0) * hill((y + 66) / 21.0);
    const double along = std::min(1.0, x / mouth_half_width_mm);
    const double line = mouth_line_y_mm(x);
    const double top = upper_lip_y_mm(x), bottom = lower_lip_y_mm(x);
    const double taper = std::sqrt(std::max(0.0, 1 - along * along));
    if (x < mouth_half_width_mm) {
        if (y > line && y < top) {
            const double t = (y - line) / (top - line);
            z += 2.3 * taper * std::sin(3.14159 * std::pow(t, 0.8)) * (1 - 0.15 * t);
            z += 0.8 * taper * (1 - t) * hill(x / 6.0);
        } else if (y <= line && y > bottom) {
            const double t = (line - y) / (line - bottom);
            z += 3.4 * taper * std::sin(3.14159 * std::pow(t, 0.85));
        }
    }
    const double fade = hill(std::max(0.0, x - mouth_half_width_mm + 2.0) / 3.0);
    z -= 2.0 * fade * hill((y - line) / 1.15);
    z -= 1.6 * hill((x - mouth_half_width_mm - 2.0) / 4.0) *
         hill((y - mouth_line_y_mm(mouth_half_width_mm)) / 4.5);
    // Philtrum between its two ridges.
    const double philtrum = hill((y + 54.5) / 5.5);
    z += philtrum * (-1.1 * hill(x / 2.8) + 0.7 * hill((x - 5.2) / 2.2));
    // The hollow under the lower lip, and the chin.
    z -= 3.0 * hill(x / 19.0) * hill((y + 86.5) / 5.5);
    z += 2.6 * hill(x / 14.0) * hill((y + 101) / 10.0);
    return z;
}

double cheeks(double x, double y) {
    double z = 3.4 * hill((x - 39) / 17.0) * hill((y + 36) / 14.0);
    // The fold from the wing of the nose to outside the corner of the mouth.
    const double fold_x = 21.5 + 9.5 * glm::smoothstep(-40.0, -68.0, y);
    z -= 1.1 * hill((x - fold_x) / 3.4) * glm::smoothstep(-74.0, -62.0, y) *
         (1 - glm::smoothstep(-44.0, -37.0, y));
    return z;
}

double brow_and_forehead(double x, double y) {
    const double arc =
        x > 8 ? brow_y_mm(std::clamp(x, brow_inner_x_mm, brow_outer_x_mm)) - 2.0 : 15.0;
    // The outer rim of the socket, the ridge, the brow between the eyes.
    return 5.0 * hill((x - 53) / 9.0) * hill((y + 1) / 15.0) +
           3.4 * hill((y - arc) / 7.5) * hill(std::max(0.0, x - 30.0) / 20.0) +
           1.0 * hill(x / 14.0) * hill((y - 13) / 8.0);
}

/// Sockets, eyeballs pressing the lids forward, and the crease of the upper lid.
double eyes(double x, double y, double z) {
    const double dx = x - model::pupil_x;
    const double in_socket =
        std::exp(-std::pow(std::abs(dx) / 19.0, 3.5) - std::pow(std::abs(y - 1.0) / 12.5, 3.0));
    const double nasal = glm::smoothstep(-6.0, -18.0, dx);
    z = glm::mix(z, 78.0 + 2.5 * nasal - 0.012 * dx * dx, 0.85 * in_socket);
    const double shell = eye_shell_mm(0.96 * dx, y, 1.3);
    if (shell > 0)
        z = -smooth_min(-z, -(eye_middle_z_mm + shell), 4.0);
    const double t = std::clamp(dx, inner_corner_x_mm, outer_corner_x_mm);
    const double crease = upper_lid_y_mm(t) * 0.82 + 5.4;
    const double ends = hill(std::max(0.0, std::abs(dx) - 11.0) / 4.5);
    z -= 1.3 * ends * hill((y - crease) / 1.1);
    // The soft pad above the crease and the bag below the eye.
    z += 1.8 * hill((dx - 1.0) / 13.0) * hill((y - crease - 4.2) / 3.4);
    z -= 0.7 * hill((dx + 3.0) / 12.0) * hill((y + 13.5) / 3.0);
    return z;
}

}  // namespace

double hill(double x) noexcept {
    return std::exp(-x * x);
}

dvec3 bare_form_mm(const dvec3& direction) {
    return fitted(rough_along(glm::normalize(direction), head_middle_mm, 170));
}

dvec3 bare_direction(const dvec3& point_mm) {
    return glm::normalize(unfitted(point_mm) - head_middle_mm);
}

double bare_front_z_mm(double x_mm, double y_mm) {
    const dvec3 start = unfitted({x_mm, y_mm, 0});
    return rough_along({0, 0, 1}, start, 140).z;
}

double face_z_mm(double x_mm, double y_mm, double bare_z_mm) {
    const double x = std::abs(x_mm);
    const double y = y_mm;
    double z = bare_z_mm + cheeks(x, y) + brow_and_forehead(x, y);
    z = eyes(x, y, z);
    return z + nose(x, y) + mouth(x, y);
}

dvec3 with_features(const dvec3& bare_mm) {
    dvec3 p = bare_mm;
    if (p.z > 8)
        p.z = glm::mix(p.z, face_z_mm(p.x, p.y, p.z), glm::smoothstep(8.0, 40.0, p.z));
    return p;
}

namespace {

/// Height of a lid over the straight line between the corners: a skewed arch.
double lid_arch(double x, double skew) {
    const double t =
        std::clamp((x - inner_corner_x_mm) / (outer_corner_x_mm - inner_corner_x_mm), 0.0, 1.0);
    const double s = 2 * std::pow(t, skew) - 1;
    return std::pow(std::max(0.0, 1 - s * s), 0.78);
}
double corner_line(double x) {
    const double t = (x - inner_corner_x_mm) / (outer_corner_x_mm - inner_corner_x_mm);
    return glm::mix(-2.2, 0.4, t);
}

}  // namespace

double upper_lid_y_mm(double x_mm) {
    return corner_line(x_mm) + 4.75 * lid_arch(x_mm, 0.90);
}
double lower_lid_y_mm(double x_mm) {
    return corner_line(x_mm) - 4.75 * lid_arch(x_mm, 1.12);
}

double eye_shell_mm(double x_mm, double y_mm, double thickness_mm) {
    const dvec3 r = eye_radii_mm + thickness_mm;
    const double left = 1 - x_mm * x_mm / (r.x * r.x) - y_mm * y_mm / (r.y * r.y);
    return left > 0 ? r.z * std::sqrt(left) : left;
}

double mouth_line_y_mm(double x_mm) {
    const double t = std::abs(x_mm) / mouth_half_width_mm;
    return -68.6 - 0.5 * hill(t / 0.22) + 2.0 * t * t * t;
}
double upper_lip_y_mm(double x_mm) {
    const double x = std::abs(x_mm);
    const double t = std::min(1.0, x / mouth_half_width_mm);
    const double bow =
        6.6 * std::pow(1 - t * t, 0.9) - 1.3 * hill(x / 3.4) + 0.5 * hill((x - 6) / 4);
    return mouth_line_y_mm(x) + 0.9 * bow;
}
double lower_lip_y_mm(double x_mm) {
    const double t = std::min(1.0, std::abs(x_mm) / mouth_half_width_mm);
    return mouth_line_y_mm(x_mm) - 8.8 * std::pow(1 - t * t, 0.85);
}

double brow_y_mm(double x_mm) {
    static const SmoothCurve<5> arc{{12.5, 20, 34, 45, 56}, {16.4, 18.6, 21.2, 21.2, 16.6}};
    return arc(std::abs(x_mm));
}
double brow_half_thickness_mm(double x_mm) {
    static const SmoothCurve<4> half{{12.5, 18, 36, 56}, {2.4, 3.1, 2.6, 0.6}};
    return half.held(std::abs(x_mm));
}

}  // namespace backrow::figures
