#include "plan/faces/sun_checks.h"

#include "setting/place/sun.h"

#include <cmath>

namespace backrow::plan {
namespace {

constexpr double overhead_from_deg = 65;
constexpr double quarter_deg = 45;

LightFrom light_from(const scene::Light& light) {
    if (light.kind == scene::LightKind::window)
        return LightFrom::window;
    if (light.sun_elevation_deg <= 0)
        return LightFrom::below_horizon;
    if (!has_sun(light))
        return LightFrom::sky;
    if (light.sun_elevation_deg >= overhead_from_deg)
        return LightFrom::overhead;
    const double from_the_back_deg = std::abs(std::remainder(light.sun_azimuth_deg, 360));
    return from_the_back_deg <= quarter_deg         ? LightFrom::behind_camera
           : from_the_back_deg >= 180 - quarter_deg ? LightFrom::behind_group
                                                    : LightFrom::aside;
}

bool is_sun_in_frame(const scene::Light& light, const scene::CameraView& view) {
    constexpr double away_m = 1e6;
    const glm::dvec3 to_sun{setting::towards_sun(light.sun_elevation_deg, light.sun_azimuth_deg)};
    const scene::Seen sun = project(view, view.position_m + away_m * to_sun);
    return sun.axial_m > 0 && sun.at_px.x >= 0 && sun.at_px.x <= view.width_px &&
           sun.at_px.y >= 0 && sun.at_px.y <= view.height_px;
}

}  // namespace

SunChecks sun_checks(const scene::Scene& scene, const scene::CameraView& view,
                     const FaceTable& table) {
    SunChecks checks{.from = light_from(scene.light)};
    if (!has_sun(scene.light))
        return checks;
    checks.is_in_frame = is_sun_in_frame(scene.light, view);
    for (std::size_t i = 0; i < table.faces.size(); ++i) {
        const FaceLight& light = table.faces[i].light;
        if (light.sun_in_eyes)
            checks.in_eyes.push_back(i);
        if (light.is_backlit)
            checks.backlit.push_back(i);
        if (light.hat_shades)
            checks.under_hats.push_back(i);
        if (light.has_shadow_across())
            checks.shadow_across.push_back(i);
    }
    return checks;
}

}  // namespace backrow::plan
