#include "figures/head/face_lines.h"

#include "figures/head/head_form.h"
#include "figures/head/head_frame.h"
#include "figures/skin/noise.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace backrow::figures {

using glm::dvec3;

double line_depth(const dvec3& at_mm, double wander) {
    const double x = std::abs(at_mm.x), y = at_mm.y;
    const auto groove = [](double off, double width) {
        return std::abs(off) < 3 * width ? hill(off / width) : 0.0;
    };
    double depth = 0;
    // Across the forehead.
    static constexpr std::array<double, 4> furrows{33.0, 42.0, 51.5, 60.0};
    constexpr double furrow_width_mm = 0.75, most_sway_mm = 2.2 + 1.3 + 1.2;
    for (std::size_t i = 0; i < furrows.size() && y > 26 && x < 50; ++i) {
        const double k = static_cast<double>(i);
        if (std::abs(y - furrows[i]) > most_sway_mm + 3 * furrow_width_mm)
            continue;
        const double line = furrows[i] + 2.2 * std::sin(x * 0.055 + k) +
                            1.3 * std::sin(at_mm.x * 0.13 + 2.1 * k) + 1.2 * wander;
        const double here = groove(y - line, furrow_width_mm);
        if (here <= 0)
            continue;
        const double fade = (0.55 + 0.45 * std::sin(at_mm.x * 0.09 + 1.7 * k)) *
                            (1 - glm::smoothstep(26.0, 50.0, x));
        depth = std::max(depth, 0.85 * fade * here);
    }
    // Between the brows.
    if (const double here = groove(x - 5.5 - 0.08 * (y - 14) - 0.6 * wander, 0.8); here > 0)
        depth = std::max(depth, 0.7 * here * hill((y - 15) / 9.0));
    // From the outer corner of the eye.
    constexpr double nearest_ray_mm = 8.0, longest_ray_mm = 22.0;
    const double dx = x - model::pupil_x - outer_corner_x_mm, dy = y + 0.5;
    const bool is_beside_eye = dx > -2 && dx < 30;
    const double off = is_beside_eye ? std::hypot(dx + 6, dy) : 0.0;
    if (off > nearest_ray_mm && off < 1.3 * longest_ray_mm) {
        const double angle = std::atan2(dy + 0.9 * wander, dx + 6);
        static constexpr std::array<double, 5> rays{-0.62, -0.28, 0.03, 0.34, 0.66};
        for (std::size_t i = 0; i < rays.size(); ++i) {
            const double bent = rays[i] - 0.012 * (off - 10) * (rays[i] > 0 ? 1 : -0.4);
            const double here = groove((angle - bent) * off, 0.6);
            if (here <= 0)
                continue;
            const double reach = 17.0 + 5.0 * std::sin(3.1 * static_cast<double>(i));
            depth = std::max(depth, 0.85 * here * glm::smoothstep(nearest_ray_mm, 12.0, off) *
                                        (1 - glm::smoothstep(0.6 * reach, 1.3 * reach, off)));
        }
    }
    // Below the eye, two arcs.
    const double ex = x - model::pupil_x;
    if (std::abs(ex) < 30 && y < 0 && y > -24) {
        const double lid = lower_lid_y_mm(std::clamp(ex, inner_corner_x_mm, outer_corner_x_mm));
        for (const auto& [drop, deep] : {std::pair{5.2, 0.45}, {9.6, 0.6}}) {
            const double line = lid - drop + 0.4 * wander;
            depth = std::max(depth, deep * groove(y - line, 0.6) * hill((ex + 1) / 12.0));
        }
    }
    if (y > -36)
        return depth;
    // From the wing of the nose past the mouth, and down from its corner.
    const double fold_x = 21.5 + 10.0 * glm::smoothstep(-40.0, -68.0, y) + 0.7 * wander;
    depth = std::max(depth, 0.9 * groove(x - fold_x, 1.0) * glm::smoothstep(-76.0, -66.0, y) *
                                (1 - glm::smoothstep(-46.0, -39.0, y)));
    depth = std::max(depth, 0.5 * groove(x - 28.0 - 0.12 * (-72 - y) - wander, 0.9) *
                                glm::smoothstep(-98.0, -86.0, y) *
                                (1 - glm::smoothstep(-78.0, -71.0, y)));
    return depth;
}

double lips_at(const dvec3& at_mm) {
    const double x = std::abs(at_mm.x);
    if (at_mm.z < 30 || x > mouth_half_width_mm || at_mm.y > -55 || at_mm.y < -85)
        return 0;
    const double top = upper_lip_y_mm(x), bottom = lower_lip_y_mm(x);
    return glm::smoothstep(bottom - 0.6, bottom + 1.2, at_mm.y) *
           (1 - glm::smoothstep(top - 1.2, top + 0.6, at_mm.y));
}

// They run across the lips and fan out from the middle.
double lip_crease(const dvec3& at_mm) {
    const double line = mouth_line_y_mm(at_mm.x);
    const double off = at_mm.y - line;
    const double along = at_mm.x * (1 - 0.014 * std::abs(off));
    const auto noise = [&](double cell_mm, int k) {
        return static_cast<double>(cell_noise(static_cast<float>(along / cell_mm + 300),
                                              static_cast<float>(at_mm.y / (6 * cell_mm)), k,
                                              4096));
    };
    const double furrow = 1 - std::abs(noise(1.5, 21));
    const double fine = 1 - std::abs(noise(0.7, 22));
    return 0.7 * furrow * furrow * furrow + 0.4 * fine * fine;
}

}  // namespace backrow::figures
