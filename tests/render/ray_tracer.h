#pragma once

// A second opinion on the thin lens: brute-force rays, nothing shared with the renderer but the
// stage and the camera's numbers.

#include "scene/camera_view.h"
#include "stage/stage.h"

#include "base/colour.h"
#include "base/image.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace backrow::render {

inline bool ray_meets(const glm::dvec3& from, const glm::dvec3& way, const glm::dvec3& a,
                      const glm::dvec3& b, const glm::dvec3& c, double& nearest) {
    const glm::dvec3 ab = b - a;
    const glm::dvec3 ac = c - a;
    const glm::dvec3 across = glm::cross(way, ac);
    const double volume = glm::dot(ab, across);
    if (std::abs(volume) < 1e-15)
        return false;
    const glm::dvec3 to = from - a;
    const double u = glm::dot(to, across) / volume;
    const glm::dvec3 other = glm::cross(to, ab);
    const double v = glm::dot(way, other) / volume;
    const double along = glm::dot(ac, other) / volume;
    if (u < 0 || v < 0 || u + v > 1 || along <= 0 || along >= nearest)
        return false;
    nearest = along;
    return true;
}

inline Rgb colour_along(const stage::Stage& stage, const glm::dvec3& from, const glm::dvec3& way) {
    double nearest = 1e30;
    Rgb seen{};
    for (const stage::Part& part : stage.parts) {
        const auto& vertices = part.mesh.vertices;
        for (std::size_t i = 0; i + 2 < part.mesh.indices.size(); i += 3) {
            const auto& first = vertices[part.mesh.indices[i]];
            if (ray_meets(from, way, first.position_m,
                          vertices[part.mesh.indices[i + 1]].position_m,
                          vertices[part.mesh.indices[i + 2]].position_m, nearest)) {
                const glm::vec3 light =
                    part.material.base_colour * first.colour + part.material.emission;
                seen = {light.r, light.g, light.b};
            }
        }
    }
    return seen;
}

inline Image<Rgb> ray_traced(const stage::Stage& stage, const scene::CameraView& view, int width,
                             int height, int rays) {
    std::mt19937_64 random{7};
    std::uniform_real_distribution<double> unit{0.0, 1.0};
    const double f = view.lens.focal_length_mm / 1000.0;
    const double image_m = f * view.lens.focus_m / (view.lens.focus_m - f);
    const double lens_radius_m = f / view.lens.f_number / 2.0;
    Image<Rgb> picture{width, height};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            Rgb sum{};
            for (int i = 0; i < rays; ++i) {
                const double across_mm = ((x + unit(random)) / width - 0.5) * view.sensor_width_mm;
                const double up_mm = (0.5 - (y + unit(random)) / height) * view.sensor_height_mm;
                const glm::dvec3 in_focus =
                    view.position_m +
                    view.lens.focus_m * (view.forward + across_mm / 1000.0 / image_m * view.right +
                                         up_mm / 1000.0 / image_m * view.up);
                const double radius = lens_radius_m * std::sqrt(unit(random));
                const double angle = 2.0 * std::numbers::pi * unit(random);
                const glm::dvec3 from = view.position_m + radius * std::cos(angle) * view.right +
                                        radius * std::sin(angle) * view.up;
                const Rgb seen = colour_along(stage, from, glm::normalize(in_focus - from));
                sum = {sum.r + seen.r, sum.g + seen.g, sum.b + seen.b};
            }
            const auto n = static_cast<float>(rays);
            picture.at(x, y) = {sum.r / n, sum.g / n, sum.b / n};
        }
    return picture;
}

inline double psnr_of_display_values(const Image<Rgb>& a, const Image<Rgb>& b) {
    const auto shown = [](float linear) {
        return static_cast<double>(srgb_from_linear(std::clamp(linear, 0.0f, 1.0f)));
    };
    double error = 0;
    for (std::size_t i = 0; i < a.pixels().size(); ++i) {
        const Rgb& p = a.pixels()[i];
        const Rgb& q = b.pixels()[i];
        error += std::pow(shown(p.r) - shown(q.r), 2) + std::pow(shown(p.g) - shown(q.g), 2) +
                 std::pow(shown(p.b) - shown(q.b), 2);
    }
    return 10.0 * std::log10(3.0 * static_cast<double>(a.pixels().size()) / error);
}

}  // namespace backrow::render
