#include "plan/faces/face_light.h"

#include "setting/place/sun.h"

#include "base/units.h"

#include <glm/geometric.hpp>
#include <glm/vec2.hpp>

#include <cmath>

namespace backrow::plan {
namespace {

constexpr double sunny_ev100 = 12.5;
constexpr double sun_away_m = 500;
// Within this angle of the nose, seen from above, a sun below the second angle meets the eyes.
constexpr double before_the_eyes_deg = 60;
constexpr double brows_shade_from_deg = 50;
constexpr double behind_the_head_deg = 110;
// A brim of six or seven centimetres, five centimetres over the eyes and standing out from them.
constexpr double brims_shade_from_deg = 35;
constexpr double least_shadow = 0.15;

/// Between two directions seen from above, degrees.
double apart_deg(const glm::dvec3& one, const glm::dvec3& other) {
    const glm::dvec2 a{one.x, one.z};
    const glm::dvec2 b{other.x, other.z};
    return std::abs(deg_from_rad(std::atan2(a.x * b.y - a.y * b.x, glm::dot(a, b))));
}

}  // namespace

bool FaceLight::has_shadow_across() const noexcept {
    return !is_backlit && shaded > least_shadow && shaded < 1 - least_shadow;
}

bool has_sun(const scene::Light& light) noexcept {
    return light.kind == scene::LightKind::open && light.sun_elevation_deg > 0 &&
           light.scene_ev100 >= sunny_ev100;
}

FaceLight face_light(const scene::Scene& scene, std::size_t person, const FaceShape& face,
                     const std::vector<Body>& bodies, const std::vector<Obstacle>& obstacles) {
    const scene::Light& light = scene.light;
    if (!has_sun(light))
        return {};
    const glm::dvec3 to_sun{setting::towards_sun(light.sun_elevation_deg, light.sun_azimuth_deg)};
    const double aside_deg = apart_deg(face.half_deep_m, to_sun);
    FaceLight on{.is_backlit = aside_deg > behind_the_head_deg};
    if (on.is_backlit)
        return on;
    on.from_sun = visibility(face, face.middle_m + sun_away_m * to_sun, bodies, person, obstacles);
    on.shaded = 1 - on.from_sun.fraction;
    const bool is_lit = on.shaded < 1 - least_shadow;
    on.hat_shades = is_lit && scene.people[person].styling.headwear == figures::Headwear::hat &&
                    light.sun_elevation_deg >= brims_shade_from_deg;
    on.sun_in_eyes = is_lit && !on.hat_shades && aside_deg < before_the_eyes_deg &&
                     light.sun_elevation_deg < brows_shade_from_deg;
    return on;
}

std::vector<std::string> words_for(const FaceLight& light) {
    std::vector<std::string> words;
    if (light.sun_in_eyes)
        words.emplace_back("sun in the eyes");
    if (light.is_backlit)
        words.emplace_back("backlit");
    if (light.has_shadow_across())
        words.emplace_back("a shadow across the face");
    if (light.hat_shades)
        words.emplace_back("the hat's shadow on the eyes");
    return words;
}

}  // namespace backrow::plan
