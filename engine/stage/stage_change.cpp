#include "stage/stage_change.h"

#include "scene/reach.h"

#include <algorithm>

namespace backrow::stage {
namespace {

scene::Setting without_places(scene::Setting setting) {
    setting.panorama_at = {};
    for (setting::Backdrop& backdrop : setting.backdrops)
        backdrop.photograph.named_at = {};
    return setting;
}

std::vector<scene::Model> without_places(std::vector<scene::Model> models) {
    for (scene::Model& model : models)
        model.named_at = {};
    return models;
}

}  // namespace

bool same_surroundings(const scene::Scene& one, const scene::Scene& other) {
    return one.light == other.light &&
           without_places(one.setting) == without_places(other.setting) &&
           without_places(one.models) == without_places(other.models);
}

bool stage_serves(const scene::Scene& scene, const scene::CameraView& built_for,
                  const scene::CameraView& view) {
    return built_for.position_m == view.position_m && built_for.forward == view.forward &&
           built_for.lens.focal_length_mm == view.lens.focal_length_mm &&
           built_for.sensor_width_mm == view.sensor_width_mm &&
           built_for.sensor_height_mm == view.sensor_height_mm &&
           built_for.width_px == view.width_px &&
           std::ranges::all_of(scene.setting.backdrops, [&](const setting::Backdrop& backdrop) {
               return scene::covers(reach_of(built_for, backdrop.back_m),
                                    reach_of(view, backdrop.back_m));
           });
}

}  // namespace backrow::stage
