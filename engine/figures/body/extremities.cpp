#include "figures/body/extremities.h"

#include "figures/body/loft.h"
#include "figures/body/smooth_curve.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// The hand's own axes.
struct HandAxes {
    dvec3 wrist, fingers, palm, thumb;
    double length;
    double handed;  ///< +1 where thumb, fingers and palm make a right-handed system.

    [[nodiscard]] dvec3 place(double along, double towards_thumb, double out_of_palm) const {
        return wrist + (fingers * along + thumb * towards_thumb + palm * out_of_palm) * length;
    }
};

/// A tube through stations of (middle, half width, half thickness), lengths in hands.
struct Station {
    dvec3 middle;  ///< Along, towards the thumb, out of the palm.
    double half_width, half_thickness;
};

template <std::size_t N>
void add_tube(const HandAxes& hand, const std::array<Station, N>& stations, int corners,
              const dvec3& colour, bool nail, shapes::Mesh& onto) {
    Loft loft{corners, true, {}};
    for (std::size_t s = 0; s < N; ++s)
        for (int i = 0; i < corners; ++i) {
            const double a = -hand.handed * 2 * std::numbers::pi * i / corners;
            const Station& at = stations[s];
            const dvec3 p = hand.place(at.middle.x, at.middle.y + at.half_width * std::cos(a),
                                       at.middle.z + at.half_thickness * std::sin(a));
            // Knuckles are redder, and so are palms and tips.
            const double tint = s + 1 >= N - 1 ? 0.86 : 0.95;
            const bool back = std::sin(a) < -0.5;
            const dvec3 own = nail && back && s + 2 == N ? colour * dvec3{1.12, 0.98, 0.96}
                                                         : colour * dvec3{1.0, tint, tint};
            const double between = 1 - 0.35 * std::abs(std::cos(a));
            loft.points.push_back({p, own, nail ? between : 0.95});
        }
    append(loft, onto, Cover::skin);
}

}  // namespace

void add_hand(const Skeleton& s, const Appearance& look, const BodyMeasures& m, Detail detail,
              int side, shapes::Mesh& onto) {
    const Arm& arm = s.arms[static_cast<std::size_t>(side)];
    const double handed = side == 0 ? 1.0 : -1.0;
    const double wrist = 0.0165 * m.stature_m * s.build.flesh / s.build.hand_m;
    const HandAxes hand{arm.wrist_m,    arm.fingers,
                        arm.palm,       glm::cross(arm.palm, arm.fingers) * handed,
                        s.build.hand_m, handed};
    const int corners = detail == Detail::close    ? 16
                        : is_fine(detail)          ? 10
                        : detail == Detail::middle ? 6
                                                   : 4;
    const std::array<Station, 6> palm{{{{-0.05, 0, 0}, 0.72 * wrist, 0.72 * wrist},
                                       {{0.06, 0.005, 0.005}, 0.90 * wrist, 0.76 * wrist},
                                       {{0.24, 0.02, 0.015}, 0.190, 0.088},
                                       {{0.44, 0.01, 0.012}, 0.205, 0.072},
                                       {{0.54, 0.00, 0.020}, 0.185, 0.048},
                                       {{0.56, 0.00, 0.025}, 0.0, 0.0}}};
    add_tube(hand, palm, corners, look.skin, false, onto);
    if (detail == Detail::far)
        return;
    struct Finger {
        double across, length, radius, curl;
    };
    static constexpr std::array<Finger, 4> fingers{{{0.142, 0.42, 0.047, 0.30},
                                                    {0.050, 0.47, 0.049, 0.36},
                                                    {-0.044, 0.44, 0.047, 0.44},
                                                    {-0.134, 0.34, 0.042, 0.52}}};
    const int sides = detail == Detail::close ? 9 : is_fine(detail) ? 5 : 4;
    for (const Finger& f : fingers) {
        // Each joint bends a little further towards the palm.
        const double spread = 0.10 * f.across;
        dvec3 at{0.46, f.across, 0.015};
        double bend = 0.12;
        std::array<Station, 5> tube{};
        const std::array<double, 3> bones{0.46, 0.30, 0.24};
        tube[0] = {at, f.radius, f.radius * 0.95};
        for (std::size_t b = 0; b < 3; ++b) {
            bend += f.curl * (b == 0 ? 0.35 : 0.9);
            at += dvec3{std::cos(bend), spread, std::sin(bend)} * (f.length * bones[b]);
            const double thin = 1 - 0.11 * static_cast<double>(b + 1);
            tube[b + 1] = {at, f.radius * thin, f.radius * thin * 0.9};
        }
        at += dvec3{std::cos(bend), 0, std::sin(bend)} * (0.55 * f.radius);
        tube[4] = {at, 0, 0};
        add_tube(hand, tube, sides, look.skin, true, onto);
    }
    const std::array<Station, 5> thumb{{{{0.12, 0.10, 0.02}, 0.075, 0.065},
                                        {{0.28, 0.205, 0.055}, 0.062, 0.058},
                                        {{0.42, 0.245, 0.085}, 0.048, 0.046},
                                        {{0.53, 0.255, 0.110}, 0.042, 0.038},
                                        {{0.56, 0.255, 0.118}, 0.0, 0.0}}};
    add_tube(hand, thumb, sides, look.skin, true, onto);
}

void add_shoe(const Skeleton& s, const Appearance& look, Detail detail, int side,
              shapes::Mesh& onto) {
    const Leg& leg = s.legs[static_cast<std::size_t>(side)];
    const double length = 1.06 * s.build.foot_m;
    const dvec3 out = glm::cross(-leg.sole, leg.toes);
    // Shares of the foot's length from heel to toe: half width, and height of the upper, which is
    // lowest round the ankle, where the leg comes out of it.
    static const SmoothCurve<7> half_width{{0, 0.05, 0.25, 0.50, 0.72, 0.93, 1.0},
                                           {0.02, 0.095, 0.124, 0.132, 0.172, 0.120, 0.02}};
    static const SmoothCurve<7> height{{0, 0.10, 0.26, 0.40, 0.56, 0.80, 1.0},
                                       {0.24, 0.25, 0.22, 0.28, 0.235, 0.165, 0.125}};
    const dvec3 upper = look.shoe_colour;
    const dvec3 sole = glm::mix(look.shoe_colour * 0.5, dvec3{0.25, 0.22, 0.19}, 0.25);
    // Level lines round the shoe from its top down: how wide, how far in from heel and toe, how
    // high between sole and top.
    struct Level {
        double width, in, up;
        bool is_sole;
    };
    constexpr double sole_up = 0.058;
    static constexpr std::array<Level, 9> all{{{0.00, 0.150, 1.00, false},
                                               {0.42, 0.110, 0.99, false},
                                               {0.78, 0.050, 0.84, false},
                                               {0.93, 0.018, 0.50, false},
                                               {0.95, 0.008, 0.00, false},
                                               {1.02, 0.000, 0.00, true},
                                               {1.02, 0.000, -0.4, true},
                                               {1.01, 0.000, -1.0, true},
                                               {0.60, 0.060, -1.0, true}}};
    static constexpr std::array<std::size_t, 9> every{0, 1, 2, 3, 4, 5, 6, 7, 8};
    static constexpr std::array<std::size_t, 6> some{0, 1, 2, 4, 5, 7};
    static constexpr std::array<std::size_t, 4> few{0, 2, 4, 7};
    const std::span<const std::size_t> levels =
        is_fine(detail)            ? std::span<const std::size_t>{every}
        : detail == Detail::middle ? std::span<const std::size_t>{some}
                                   : std::span<const std::size_t>{few};
    const int corners = detail == Detail::close    ? 24
                        : detail == Detail::near   ? 12
                        : detail == Detail::middle ? 8
                                                   : 6;
    const double inwards = side == 0 ? -1.0 : 1.0;
    Loft loft{corners, true, {}};
    for (const std::size_t number : levels) {
        const Level& level = all[number];
        for (int i = 0; i < corners; ++i) {
            const double a = 2 * std::numbers::pi * i / corners;
            const double on_outline = 0.5 + 0.5 * std::cos(a);
            const double t = glm::mix(level.in, 1 - level.in, on_outline);
            const double w = std::copysign(half_width.held(on_outline), std::sin(a)) * level.width;
            const double top = height.held(t);
            const double up =
                level.up < 0 ? sole_up * (1 + level.up) : glm::mix(sole_up, top, level.up);
            const double bow = inwards * 0.035 * std::sin(std::numbers::pi * t);
            const double lift = 0.025 * glm::smoothstep(0.75, 1.0, t);
            loft.points.push_back(
                {leg.ankle_m + leg.sole * s.build.ankle_height_m +
                     (leg.toes * (t - 0.24) + out * (w + bow) - leg.sole * (up + lift)) * length,
                 level.is_sole ? sole : upper * (0.95 + 0.15 * level.up),
                 level.is_sole ? 0.55 : 0.75 + 0.25 * level.up});
        }
    }
    append(loft, onto);
}

}  // namespace backrow::figures
