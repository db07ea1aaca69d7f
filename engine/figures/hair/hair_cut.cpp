#include "figures/hair/hair_cut.h"

#include "figures/body/smooth_curve.h"
#include "figures/head/head_form.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

namespace backrow::figures {

using glm::dvec3;

HairCut cut_of(HairStyle style) {
    switch (style) {
    case HairStyle::cropped:
        return {{0.02, 1, -0.42}, 0, false, 9, 3.5, 5, 100, 0, 0, 2};
    case HairStyle::parted:
        return {{0.14, 1, -0.50}, 0.42, true, 19, 5, 13, 100, 0, 0, 2};
    case HairStyle::waves:
        return {{0.04, 1, -0.45}, 0.16, true, 14, 13, 7, -172, 0, 6, 0};
    case HairStyle::bob:
        return {{-0.06, 1, -0.40}, -0.30, true, 15, 14, 9, -96, 0, 1.5, 12};
    case HairStyle::tied:
        return {{0.0, 0.86, -0.95}, 0, false, 6, 4.5, 3, 100, 0, 0, 0};
    case HairStyle::curls:
        return {{0.05, 1, -0.25}, 0, false, 24, 17, 12, 100, 5.5, 0, 5};
    case HairStyle::none:
        break;
    }
    return {{0, 1, 0}, 0, false, 0, 0, 0, 100, 0, 0, 0};
}

double hair_line_rad(double around_rad) {
    static const SmoothCurve<9> line{{0.0, 0.42, 0.78, 1.04, 1.22, 1.42, 1.85, 2.35, 3.1416},
                                     {0.84, 0.87, 0.80, 0.52, 0.20, -0.02, -0.20, -0.52, -0.62}};
    return line.held(std::abs(around_rad));
}

dvec3 head_direction(double around_rad, double up_rad) {
    return {std::sin(around_rad) * std::cos(up_rad), std::sin(up_rad),
            std::cos(around_rad) * std::cos(up_rad)};
}

// From a table: hair needs thousands of points.
double skull_radius_mm(const dvec3& dir) {
    constexpr int across = 48, up = 25;
    static const std::vector<double> table = [] {
        std::vector<double> radii;
        for (int j = 0; j < up; ++j)
            for (int i = 0; i <= across; ++i) {
                const double e = std::numbers::pi * (j / (up - 1.0) - 0.5);
                const double a = 2 * std::numbers::pi * (i / static_cast<double>(across) - 0.5);
                radii.push_back(glm::distance(bare_form_mm(head_direction(a, e)), head_middle_mm));
            }
        return radii;
    }();
    const double x = (std::atan2(dir.x, dir.z) / (2 * std::numbers::pi) + 0.5) * across;
    const double y = (std::asin(std::clamp(dir.y, -1.0, 1.0)) / std::numbers::pi + 0.5) * (up - 1);
    const int i = std::clamp(static_cast<int>(x), 0, across - 1);
    const int j = std::clamp(static_cast<int>(y), 0, up - 2);
    const auto at = [&](int u, int v) {
        return table[static_cast<std::size_t>(v * (across + 1) + u)];
    };
    return glm::mix(glm::mix(at(i, j), at(i + 1, j), x - i),
                    glm::mix(at(i, j + 1), at(i + 1, j + 1), x - i), y - j);
}

dvec3 between_directions(const dvec3& a, const dvec3& b, double t) {
    const double angle = std::acos(std::clamp(glm::dot(a, b), -0.9999, 0.9999));
    return (a * std::sin((1 - t) * angle) + b * std::sin(t * angle)) / std::sin(angle);
}

double lock_value(double around_rad, int k) {
    const double column = around_rad * 8.6;
    return std::sin(column * (1.618034 + 0.37 * k) + 2.1 * k) * 0.6 +
           std::sin(column * (2.91 + k) + k) * 0.4;
}

double hair_value(int column, int k) {
    std::uint32_t h = static_cast<std::uint32_t>(column) * 0x9e3779b9u +
                      static_cast<std::uint32_t>(k) * 0x85ebca6bu;
    h = (h ^ (h >> 16)) * 0x7feb352du;
    h = (h ^ (h >> 15)) * 0x846ca68bu;
    return static_cast<double>((h ^ (h >> 16)) & 0xffffu) / 32767.5 - 1;
}

double curl_value(const dvec3& d) {
    const auto bumps = [&](double f, double shift) {
        return std::sin(f * d.x + 1.9 * std::sin(0.6 * f * d.y + shift)) *
               std::sin(1.1 * f * d.y + 1.9 * std::sin(0.7 * f * d.z + 2 * shift)) *
               std::sin(0.9 * f * d.z + 1.9 * std::sin(0.6 * f * d.x + 3 * shift));
    };
    return 1.3 * bumps(15, 0.4) + 1.0 * bumps(25, 1.7);
}

dvec3 root_of(const HairCut& cut, double around_rad) {
    const dvec3 whorl = glm::normalize(cut.whorl);
    if (!cut.parted)
        return whorl;
    const dvec3 front = head_direction(cut.parting_rad, hair_line_rad(cut.parting_rad) + 0.05);
    double off = std::abs(around_rad - cut.parting_rad);
    off = std::min(off, 2 * std::numbers::pi - off);
    return between_directions(front, whorl, glm::smoothstep(0.10, 2.0, off));
}

}  // namespace backrow::figures
