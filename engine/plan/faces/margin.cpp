#include "plan/faces/margin.h"

#include "plan/odds/frame_model.h"

#include <cstddef>
#include <utility>

namespace backrow::plan {
namespace {

/// The scene in a frame in which nothing goes wrong.
scene::Scene at_rest(scene::Scene scene) {
    for (const Lapse lapse : {Lapse::sway, Lapse::camera, Lapse::autofocus, Lapse::recompose,
                              Lapse::line_up, Lapse::blinks, Lapse::motion})
        scene = without(std::move(scene), lapse);
    return scene;
}

}  // namespace

std::vector<std::optional<optics::AxialRange>>
zones(const scene::Scene& scene, const scene::CameraView& view, optics::Grade grade) {
    const FrameModel model = frame_model(at_rest(scene), view, grade);
    const auto lens = landed(model, model.focus_m);
    std::vector<std::optional<optics::AxialRange>> zones;
    zones.reserve(model.faces.size());
    for (const VaryingFace& face : model.faces)
        zones.push_back(lens ? zone(model, face, *lens) : std::nullopt);
    return zones;
}

std::vector<std::optional<optics::AxialRange>> zones_at(const scene::Scene& scene,
                                                        const scene::CameraView& view,
                                                        optics::Grade grade,
                                                        std::span<const double> image_heights) {
    scene::Scene nobody;
    nobody.camera = scene.camera;
    nobody.viewing = scene.viewing;
    const FrameModel model = frame_model(at_rest(std::move(nobody)), view, grade);
    const auto lens = landed(model, model.focus_m);
    std::vector<std::optional<optics::AxialRange>> zones;
    zones.reserve(image_heights.size());
    for (const double image_height : image_heights) {
        const VaryingFace face{.name = {},
                               .vergence_dpt = best_focus_dpt(view, image_height),
                               .can_hold = true,
                               .room_mm2 = model.limit_mm * model.limit_mm};
        zones.push_back(lens ? zone(model, face, *lens) : std::nullopt);
    }
    return zones;
}

Margin margin_in(const std::optional<optics::AxialRange>& zone, double axial_m) noexcept {
    if (!zone || axial_m < zone->near_m || axial_m > zone->far_m)
        return {};
    return {.front_m = axial_m - zone->near_m, .back_m = zone->far_m - axial_m};
}

std::vector<Margin> margins(const scene::Scene& scene, const scene::CameraView& view,
                            optics::Grade grade) {
    const auto all = zones(scene, view, grade);
    std::vector<Margin> margins;
    margins.reserve(all.size());
    for (std::size_t i = 0; i < all.size(); ++i)
        margins.push_back(margin_in(all[i], axial_m(view, nearer_eye_m(view, scene.people[i]))));
    return margins;
}

}  // namespace backrow::plan
