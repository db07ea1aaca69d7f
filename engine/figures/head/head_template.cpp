#include "figures/head/head_template.h"

#include "figures/head/face_motion.h"
#include "figures/head/head_form.h"
#include "figures/head/head_frame.h"
#include "figures/head/summit.h"

#include "shapes/planar_triangulation.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/vec2.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;

// The plane of the triangulation unrolls the head from its front: a point's distance from the
// origin is the angle between its direction and straight ahead, times a radius.
constexpr double unrolled_radius_mm = 95.0;
constexpr double last_angle_rad = 2.70;  ///< Behind it, one fan closes the back of the head.

dvec2 unrolled(const dvec3& point_mm) {
    const dvec3 d = bare_direction(point_mm);
    const double off = std::hypot(d.x, d.y);
    const double angle = std::atan2(off, d.z) * unrolled_radius_mm;
    return off > 0 ? dvec2{d.x, d.y} / off * angle : dvec2{0};
}

dvec3 rolled(const dvec2& plane) {
    const double angle = glm::length(plane) / unrolled_radius_mm;
    const double s = angle > 0 ? std::sin(angle) / (angle * unrolled_radius_mm) : 0.0;
    return bare_form_mm({plane.x * s, plane.y * s, std::cos(angle)});
}

dvec3 on_face(double x, double y) {
    return {x, y, bare_front_z_mm(x, y)};
}

/// The mid-line's point furthest up (+1) or down (−1).
dvec3 furthest(double sign) {
    const auto mid_line = [&](int step) {
        const double a = step * 0.001;
        return bare_form_mm({0, sign * std::cos(a), std::sin(a)});
    };
    return mid_line(summit(-900, 900, [&](int step) { return mid_line(step).y * sign; }).at);
}

const dvec3& bare_chin_mm() {
    static const dvec3 chin = furthest(-1);
    return chin;
}

bool in_eye_opening(double x, double y) {
    const double dx = std::abs(x) - model::pupil_x;
    return dx > inner_corner_x_mm && dx < outer_corner_x_mm && y < upper_lid_y_mm(dx) &&
           y > lower_lid_y_mm(dx);
}

/// Round the opening of the left eye, swollen by off_mm; from the inner corner over the upper lid.
std::vector<dvec2> eye_ring(double off_mm, double spacing_mm) {
    std::vector<dvec2> dense;
    const int steps = 120;
    for (int i = 0; i < 2 * steps; ++i) {
        const bool upper = i < steps;
        // Closer towards the corners, where the edge turns.
        const double t = 0.5 - 0.5 * std::cos(std::numbers::pi * (i % steps) / steps);
        const double x = upper ? glm::mix(inner_corner_x_mm, outer_corner_x_mm, t)
                               : glm::mix(outer_corner_x_mm, inner_corner_x_mm, t);
        const double y = upper ? upper_lid_y_mm(x) : lower_lid_y_mm(x);
        dense.push_back({x, y});
    }
    if (off_mm > 0) {
        std::vector<dvec2> swollen = dense;
        const std::size_t n = dense.size();
        for (std::size_t i = 0; i < n; ++i) {
            const dvec2 along = dense[(i + 5) % n] - dense[(i + n - 5) % n];
            swollen[i] += glm::normalize(dvec2{-along.y, along.x}) * off_mm;
        }
        dense = swollen;
    }
    std::vector<dvec2> ring;
    double since = spacing_mm;
    double whole = 0;
    for (std::size_t i = 0; i < dense.size(); ++i)
        whole += glm::distance(dense[i], dense[(i + 1) % dense.size()]);
    const double step = whole / std::max(8.0, std::round(whole / spacing_mm));
    since = step;
    for (std::size_t i = 0; i < dense.size(); ++i) {
        if (since >= step - 1e-9) {
            ring.push_back(dense[i]);
            since -= step;
        }
        since += glm::distance(dense[i], dense[(i + 1) % dense.size()]);
    }
    if (ring.size() > 6 && glm::distance(ring.back(), ring.front()) < 0.6 * step)
        ring.pop_back();
    for (dvec2& p : ring)
        p.x += model::pupil_x;
    return ring;
}

/// How fine a template is: the spacing of the points against that of the near view, and the widest
/// there is in front.
struct Fineness {
    double coarse, widest_mm;
};

/// Wanted distance between points, millimetres, for a place of the bare form.
double spacing_mm(const dvec3& p, const Fineness& fineness) {
    const double coarse = fineness.coarse;
    const double x = std::abs(p.x);
    if (p.z < 0) {
        return fineness.widest_mm * (1.7 + 1.4 * glm::smoothstep(0.0, -90.0, p.z));
    }
    const double eye =
        std::max(0.0, std::hypot((x - model::pupil_x) / 17.0, p.y / 8.0) - 1.0) * 10.0;
    const double lips = std::max(0.0, std::hypot(x / 27.0, (p.y + 69.0) / 12.0) - 1.0) * 14.0;
    const double nose = std::max(0.0, std::hypot(x / 19.0, (p.y + 40.0) / 10.0) - 1.0) * 12.0;
    const double brow =
        std::max(0.0,
                 std::abs(p.y - brow_y_mm(std::clamp(x, brow_inner_x_mm, brow_outer_x_mm))) - 3.0) +
        std::max({0.0, x - brow_outer_x_mm, brow_inner_x_mm - x});
    const double by_feature =
        std::min({1.5 + 0.44 * eye, 1.6 + 0.46 * lips, 2.0 + 0.46 * nose, 2.7 + 0.4 * brow});
    return std::min(fineness.widest_mm, by_feature * coarse);
}

class PointCloud {
public:
    /// Adds a point where no other is closer than `least_mm` in the plane. spacing_mm is what the
    /// place wants, where that is known.
    bool add(const dvec2& plane, double least_mm, bool fixed, double spacing_mm = 0) {
        const bool taken = any_near(plane, least_mm, [&](std::size_t i) {
            return glm::distance(points_[i], plane) < least_mm;
        });
        if (taken)
            return false;
        bins_[bin_of(bin(plane.x), bin(plane.y))].push_back(points_.size());
        points_.push_back(plane);
        fixed_.push_back(fixed);
        spacings_mm_.push_back(spacing_mm);
        return true;
    }

    /// Whether a point here would certainly be closer to another than `share` of the spacing that
    /// its place wants, which within a millimetre is at the most `slope` less than there.
    [[nodiscard]] bool is_taken(const dvec2& plane, double share, double slope,
                                double widest_mm) const {
        return any_near(plane, widest_mm, [&](std::size_t i) {
            const double off = glm::distance(points_[i], plane);
            return off < share * (std::min(spacings_mm_[i], widest_mm) - slope * off);
        });
    }

    [[nodiscard]] const std::vector<dvec2>& points() const { return points_; }
    [[nodiscard]] const std::vector<bool>& fixed() const { return fixed_; }

private:
    static constexpr double bin_mm = 5.0;
    /// The head unrolled, all round.
    static constexpr int half_bins =
        static_cast<int>(std::numbers::pi * unrolled_radius_mm / bin_mm) + 1;

    static int bin(double v) { return static_cast<int>(std::floor(v / bin_mm)) + half_bins; }
    static std::size_t bin_of(int x, int y) {
        return static_cast<std::size_t>(y * 2 * half_bins + x);
    }

    /// Whether a point that may be so close has it.
    template <class Has>
    [[nodiscard]] bool any_near(const dvec2& plane, double reach_mm, const Has& has) const {
        const int reach = static_cast<int>(std::ceil(reach_mm / bin_mm));
        const int x = bin(plane.x), y = bin(plane.y), last = 2 * half_bins - 1;
        for (int r = std::max(0, y - reach); r <= std::min(last, y + reach); ++r)
            for (int c = std::max(0, x - reach); c <= std::min(last, x + reach); ++c)
                if (std::ranges::any_of(bins_[bin_of(c, r)], has))
                    return true;
        return false;
    }

    std::vector<dvec2> points_;
    std::vector<bool> fixed_;
    std::vector<double> spacings_mm_;
    std::vector<std::vector<std::size_t>> bins_ =
        std::vector<std::vector<std::size_t>>(std::size_t{2} * half_bins * 2 * half_bins);
};

/// Points of the left half and the mid-line.
PointCloud half_cloud(const Fineness& fineness, std::size_t& rim_count) {
    const double coarse = fineness.coarse;
    const double last = last_angle_rad * unrolled_radius_mm;
    PointCloud cloud;
    const auto fix = [&](const dvec3& at, double least_mm) {
        dvec2 plane = unrolled(at);
        if (at.x == 0)
            plane.x = 0;
        cloud.add(plane, least_mm, true);
    };
    // The edge of the eye's opening comes first, whole and in order.
    for (const dvec2& p : eye_ring(0, 1.45 * coarse))
        fix(on_face(p.x, p.y), 0.3);
    rim_count = cloud.points().size();
    fix({0, nose_tip_y_mm, bare_front_z_mm(0, nose_tip_y_mm)}, 0.5);
    fix(bare_chin_mm(), 0.5);
    fix(model_crown_mm(), 0.5);
    if (coarse < 3) {
        for (const double off : {1.0, 2.2, 3.6, 5.2, 7.4})
            for (const dvec2& p : eye_ring(off, (1.5 + 0.16 * off) * coarse))
                if (p.x > 8)
                    fix(on_face(p.x, p.y), 0.6 * coarse);
        // Between the lips points lie closer along the line than to their neighbours on the lips:
        // so that no triangle bridges it, and the mouth can be slit there.
        for (double x = 0; x < mouth_half_width_mm + 1.0; x += 0.85 * coarse) {
            const double at = std::min(x, mouth_half_width_mm);
            fix(on_face(at, mouth_line_y_mm(at)), 0.62 * coarse);
        }
        for (double x = 0; x < mouth_half_width_mm + 1.0; x += 1.7 * coarse) {
            const double at = std::min(x, mouth_half_width_mm);
            const double top = upper_lip_y_mm(at), line = mouth_line_y_mm(at),
                         bottom = lower_lip_y_mm(at);
            for (const double y :
                 {glm::mix(line, top, 0.28), glm::mix(line, top, 0.66), top, top + 1.5,
                  glm::mix(line, bottom, 0.2), glm::mix(line, bottom, 0.5),
                  glm::mix(line, bottom, 0.8), bottom, bottom - 1.7})
                fix(on_face(at, y), 0.62 * coarse);
        }
    }
    // The mid-line, so that both halves meet.
    for (double t = -last; t < last;) {
        const double h = spacing_mm(rolled({0, t}), fineness);
        cloud.add({0, t}, 0.75 * h, true, h);
        t += 0.25 * h;
    }
    // The rest is thrown, finest where features are; the plastic-number sequence leaves no holes.
    // Features widen the spacing by half a millimetre a millimetre of skin, which leans away from
    // the plane; so this is what it changes at the most where it is not the widest.
    const double slope = 1.3 * coarse;
    const auto throw_points = [&](double half_width, double bottom, double top, int count) {
        for (int i = 1; i <= count; ++i) {
            const dvec2 at{half_width * glm::fract(i * 0.7548776662466927),
                           glm::mix(bottom, top, glm::fract(i * 0.5698402909980532))};
            // Most come to lie beside others: that is seen before their place is worked out.
            if (glm::length(at) > last || cloud.is_taken(at, 0.86, slope, fineness.widest_mm))
                continue;
            const dvec3 place = rolled(at);
            if (place.z > 0 && in_eye_opening(place.x, place.y))
                continue;
            const double h = spacing_mm(place, fineness);
            if (at.x > 0.45 * h)
                cloud.add(at, 0.86 * h, false, h);
        }
    };
    const double density = 100 / (fineness.widest_mm * fineness.widest_mm);
    throw_points(62.0, -105.0, 40.0, static_cast<int>(14000 * density));
    throw_points(last, -last, last, static_cast<int>(9000 * density) + 400);
    // A ring to close the back of the head on.
    const int spokes = std::max(6, static_cast<int>(20 / coarse));
    for (int i = 1; i < spokes; ++i) {
        const double a = std::numbers::pi * (i / static_cast<double>(spokes) - 0.5);
        cloud.add(dvec2{std::cos(a), std::sin(a)} * last, 8.0, true);
    }
    return cloud;
}

/// A value in −1 … 1 that changes smoothly over the place: pores, blotches.
double mottle(const dvec3& p, double size_mm) {
    const dvec3 q = p / size_mm;
    return (std::sin(q.x * 1.7 + 2.1 * std::sin(q.y * 1.3)) +
            std::sin(q.y * 2.1 + 1.9 * std::sin(q.x * 1.1 + q.z)) + std::sin(q.z * 1.9 + q.x)) /
           3;
}

Paint paint_of(const dvec3& p) {
    const double x = std::abs(p.x), y = p.y;
    Paint paint;
    if (p.z > 10) {
        const double dx = x - model::pupil_x;
        const double edge = mouth_half_width_mm;
        if (x <= edge + 0.2) {
            const double top = upper_lip_y_mm(x), bottom = lower_lip_y_mm(x);
            const double soft = 1.0;
            paint.lips = glm::smoothstep(bottom - soft, bottom + soft, y) *
                         (1 - glm::smoothstep(top - soft, top + soft, y));
            paint.mouth_line = hill((y - mouth_line_y_mm(x)) / 0.8);
        } else {
            paint.mouth_line =
                0.5 * hill((y - mouth_line_y_mm(edge)) / 1.4) * hill((x - edge) / 2.0);
        }
        paint.blush = 0.75 * hill((x - 41) / 19.0) * hill((y + 34) / 17.0) +
                      0.6 * hill(x / 12.0) * hill((y + 37) / 9.0) +
                      0.3 * hill(x / 12.0) * hill((y + 101) / 9.0);
        paint.nostril = hill((x - 6.4) / 2.5) * hill((y + 45.0) / 1.6);
        if (x > brow_inner_x_mm - 4 && x < brow_outer_x_mm + 2) {
            const double half = brow_half_thickness_mm(x);
            paint.brow = hill((y - brow_y_mm(x)) / (half * 1.05)) *
                         glm::smoothstep(brow_inner_x_mm - 3, brow_inner_x_mm + 5, x) *
                         (1 - glm::smoothstep(brow_outer_x_mm - 12, brow_outer_x_mm, x));
        }
        const double t = std::clamp(dx, inner_corner_x_mm, outer_corner_x_mm);
        const double outside = std::hypot(dx - t, 0.0);
        const double above = y - upper_lid_y_mm(t), below = lower_lid_y_mm(t) - y;
        paint.lid_edge =
            std::max(hill(above / 0.9), 0.40 * hill(below / 0.7)) * hill(outside / 1.2);
        const double crease = upper_lid_y_mm(t) * 0.82 + 5.4;
        paint.lid_shade = 0.8 * hill((y - crease) / 1.3) * hill(outside / 2.0) +
                          0.38 * hill((dx - inner_corner_x_mm) / 4.0) * hill((y - 1) / 6.0) +
                          0.16 * hill((dx + 4) / 11.0) * hill((y + 10) / 4.0);
        paint.beard =
            glm::smoothstep(-46.0, -58.0, y) * (1 - 0.3 * hill(x / 30.0) * hill((y + 70) / 9.0));
        paint.ambient_visibility = 1 - 0.30 * hill((dx + 2) / 13.0) * hill((y - 5.0) / 6.5) -
                                   0.14 * hill((dx + 14) / 6.0) * hill((y - 2) / 8.0) -
                                   0.55 * paint.nostril - 0.50 * paint.mouth_line -
                                   0.25 * hill(x / 17.0) * hill((y + 87) / 5.0) -
                                   0.16 * hill((x - 19.5) / 3.5) * hill((y + 40) / 7.0) -
                                   0.12 * hill(x / 11.0) * hill((y + 47.5) / 3.5) -
                                   0.16 * hill((x - 9.5) / 4.0) * hill((y + 20) / 18.0);
    }
    // Under the jaw little of the sky is left.
    const double under = glm::smoothstep(-98.0, -116.0, y) * (1 - glm::smoothstep(60.0, 82.0, p.z));
    paint.ambient_visibility *= 1 - 0.55 * under;
    paint.scalp = std::max(glm::smoothstep(62.0, 72.0, y),
                           glm::smoothstep(2.0, -8.0, p.z) * glm::smoothstep(-48.0, -26.0, y));
    return paint;
}

/// Slits the skin between the lips, so that they can part: points of the line get a twin below.
void slit_mouth(HeadTemplate& made) {
    // Points were laid on the line through an iteration that ends at a ten-thousandth.
    const double on_line_mm = 0.02;
    const auto between_lips = [&](std::uint32_t i) {
        const dvec3& p = made.points_mm[i];
        return p.z > 30 && std::abs(p.x) < mouth_half_width_mm + on_line_mm &&
               std::abs(p.y - mouth_line_y_mm(p.x)) < on_line_mm;
    };
    std::vector<std::uint32_t> line;
    for (std::uint32_t i = 0; i < made.points_mm.size(); ++i)
        if (between_lips(i))
            line.push_back(i);
    if (line.size() < 3)
        return;
    std::ranges::sort(line, {}, [&](std::uint32_t i) { return made.points_mm[i].x; });
    made.upper_lip = made.lower_lip = line;
    std::map<std::uint32_t, std::uint32_t> below;
    for (std::size_t k = 1; k + 1 < line.size(); ++k) {
        const std::uint32_t i = line[k];
        below[i] = made.lower_lip[k] = static_cast<std::uint32_t>(made.points_mm.size());
        made.points_mm.push_back(made.points_mm[i] - dvec3{0, slit_mm, 0});
        made.paint.push_back(made.paint[i]);
        made.plane_mm.push_back(made.plane_mm[i]);
        made.points_mm[i].y += slit_mm;
    }
    for (auto& t : made.face) {
        const dvec3 middle =
            (made.points_mm[t[0]] + made.points_mm[t[1]] + made.points_mm[t[2]]) / 3.0;
        if (middle.y < mouth_line_y_mm(middle.x))
            for (std::uint32_t& i : t)
                if (const auto twin = below.find(i); twin != below.end())
                    i = twin->second;
    }
}

HeadTemplate build(const Fineness& fineness) {
    std::size_t rim_count = 0;
    const PointCloud half = half_cloud(fineness, rim_count);
    std::vector<dvec2> plane = half.points();
    std::vector<bool> fixed = half.fixed();
    std::vector<std::uint32_t> mirror_of(plane.size());
    const std::size_t half_size = plane.size();
    for (std::size_t i = 0; i < half_size; ++i) {
        mirror_of[i] = static_cast<std::uint32_t>(i);
        if (plane[i].x == 0)
            continue;
        mirror_of[i] = static_cast<std::uint32_t>(plane.size());
        plane.push_back({-plane[i].x, plane[i].y});
        fixed.push_back(fixed[i]);
    }
    auto triangles = shapes::planar_triangulation(plane);
    // Thrown points move to the middle of their neighbours: rounder triangles.
    for (int round = 0; round < 2; ++round) {
        std::vector<dvec2> sum(plane.size(), dvec2{0});
        std::vector<int> count(plane.size(), 0);
        for (const auto& t : triangles)
            for (std::size_t e = 0; e < 3; ++e) {
                sum[t[e]] += plane[t[(e + 1) % 3]] + plane[t[(e + 2) % 3]];
                count[t[e]] += 2;
            }
        for (std::size_t i = 0; i < half_size; ++i) {
            if (fixed[i] || count[i] == 0)
                continue;
            plane[i] = glm::mix(plane[i], sum[i] / static_cast<double>(count[i]), 0.7);
            plane[mirror_of[i]] = {-plane[i].x, plane[i].y};
        }
        triangles = shapes::planar_triangulation(plane);
    }

    HeadTemplate made;
    for (const dvec2& at : plane) {
        const dvec3 p = with_features(rolled(at));
        made.points_mm.push_back(p);
        made.paint.push_back(paint_of(p));
        made.plane_mm.push_back(at);
    }
    for (std::size_t i = 0; i < rim_count; ++i) {
        made.rims[0].push_back(static_cast<std::uint32_t>(i));
        made.rims[1].push_back(mirror_of[i]);
    }
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> hull;
    for (const auto& t : triangles) {
        const dvec3 middle =
            (made.points_mm[t[0]] + made.points_mm[t[1]] + made.points_mm[t[2]]) / 3.0;
        for (std::size_t e = 0; e < 3; ++e)
            ++hull[std::minmax(t[e], t[(e + 1) % 3])];
        const bool all_on_rim = (t[0] < rim_count || (t[0] >= half_size && fixed[t[0]])) &&
                                (t[1] < rim_count || (t[1] >= half_size && fixed[t[1]])) &&
                                (t[2] < rim_count || (t[2] >= half_size && fixed[t[2]]));
        if (all_on_rim && in_eye_opening(middle.x, middle.y))
            continue;
        const bool is_face = middle.z > -4 && middle.y < 70 && (middle.y > -100 || middle.z > 30);
        (is_face ? made.face : made.skull).push_back(t);
    }
    // The fan behind.
    const auto back = static_cast<std::uint32_t>(made.points_mm.size());
    made.points_mm.push_back(bare_form_mm({0, 0, -1}));
    made.paint.push_back(paint_of(made.points_mm.back()));
    made.plane_mm.push_back({0, std::numbers::pi * unrolled_radius_mm});
    for (const auto& t : triangles)
        for (std::size_t e = 0; e < 3; ++e) {
            const std::uint32_t a = t[e], b = t[(e + 1) % 3];
            if (hull[std::minmax(a, b)] == 1)
                made.skull.push_back({b, a, back});
        }
    slit_mouth(made);
    for (std::size_t i = 0; i < made.paint.size(); ++i) {
        made.paint[i].blotches = mottle(made.points_mm[i], 9.0);
        made.paint[i].fine_blotches = mottle(made.points_mm[i], 2.0);
    }
    return made;
}

}  // namespace

dvec3 rolled_mm(const dvec2& plane_mm) {
    return with_features(rolled(plane_mm));
}

const dvec3& model_nose_tip_mm() {
    static const dvec3 tip{0, nose_tip_y_mm,
                           face_z_mm(0, nose_tip_y_mm, bare_front_z_mm(0, nose_tip_y_mm))};
    return tip;
}

const dvec3& model_ear_mm() {
    static const dvec3 ear = [] {
        const dvec3 d{1, (model::ear_y - head_middle_mm.y) / 68.0, -head_middle_mm.z / 68.0};
        return bare_form_mm(d);
    }();
    return ear;
}

const dvec3& model_chin_mm() {
    static const dvec3 chin = with_features(bare_chin_mm());
    return chin;
}

const dvec3& model_crown_mm() {
    static const dvec3 crown = furthest(1);
    return crown;
}

const HeadTemplate& head_template(Detail detail) {
    // Each is made when first asked for.
    if (detail == Detail::close) {
        static const HeadTemplate made = build({0.85, 5.2});
        return made;
    }
    if (detail == Detail::near) {
        static const HeadTemplate made = build({1.0, 10});
        return made;
    }
    if (detail == Detail::middle) {
        static const HeadTemplate made = build({2.0, 20});
        return made;
    }
    static const HeadTemplate made = build({5.0, 50});
    return made;
}

}  // namespace backrow::figures
