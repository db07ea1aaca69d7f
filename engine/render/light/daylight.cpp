#include "render/light/daylight.h"

#include <glm/geometric.hpp>

#include <algorithm>

namespace backrow::render {
namespace {

// What paper white comes out as: a little over 1, where the shoulder begins to bend it.
constexpr float paper_white = 1.05f;

Daylight exposed(const Daylight& light, const glm::vec3& on_faces) {
    const float exposure = paper_white / on_faces.g;
    return {light.main * exposure, light.sky * exposure, light.ground * exposure};
}

}  // namespace

Daylight metered_daylight(const glm::dvec3& towards_sun, bool sun_is_up,
                          const glm::dvec3& towards_lens) {
    // Sun to sky as on a day with some haze, the softer kind that portraits are taken on; the lower
    // the sun, the weaker and warmer (common practice, no source).
    const double height = std::max(towards_sun.y, 0.0);
    const auto strength = static_cast<float>(sun_is_up ? 2.6 * std::min(1.0, height / 0.35) : 0.0);
    const auto warmth = static_cast<float>(std::clamp(1.0 - height / 0.7, 0.0, 1.0));
    Daylight light;
    light.main = strength * glm::vec3{1.0f, 0.95f - 0.10f * warmth, 0.86f - 0.26f * warmth};
    light.sky = glm::vec3{0.93f, 0.98f, 1.07f};
    const glm::vec3 on_ground = light.main * static_cast<float>(height) + light.sky;
    light.ground = on_ground * glm::vec3{0.24f, 0.23f, 0.19f};

    const auto facing_sun = static_cast<float>(std::max(0.0, glm::dot(towards_sun, towards_lens)));
    const glm::vec3 on_faces = light.main * facing_sun + 0.5f * light.sky + 0.5f * light.ground;
    return exposed(light, on_faces);
}

Daylight metered_window_light(const stage::WindowLight& window, const glm::dvec3& group_m,
                              const glm::dvec3& towards_lens) {
    const glm::dvec3 way = window.middle_m - group_m;
    const double away_m = std::max(glm::length(way), 0.2);
    const glm::dvec3 towards_window = way / away_m;
    // The group beside the pane rather than before it still gets a little.
    const double slant = std::max(glm::dot(-towards_window, window.facing), 0.05);
    const auto at_group = static_cast<float>(slant / (away_m * away_m));

    constexpr float thrown_back = 0.25f;
    Daylight light;
    light.main = glm::vec3{0.96f, 1.0f, 1.05f} / at_group;
    light.sky = thrown_back * glm::vec3{1.03f, 1.0f, 0.94f};
    light.ground = 0.7f * light.sky;

    const auto facing = static_cast<float>(std::max(0.0, glm::dot(towards_window, towards_lens)));
    const glm::vec3 fill = 0.5f * light.sky + 0.5f * light.ground;
    return exposed(light, glm::vec3{(2.0f * facing + 1.0f) / 3.0f} + fill);
}

}  // namespace backrow::render
