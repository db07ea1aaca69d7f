#include "plan/faces/margin.h"

#include "scene/judged_blur.h"

#include <cstddef>
#include <utility>

namespace backrow::plan {

std::vector<std::optional<optics::AxialRange>>
zones(const scene::Scene& scene, const scene::CameraView& view, optics::Grade grade) {
    const auto limit_mm = blur_limit_mm(grade, scene, view);
    if (!limit_mm)
        return std::vector<std::optional<optics::AxialRange>>(scene.people.size());
    const optics::SharpZones sharp{view.focused(), *limit_mm};
    std::vector<std::optional<optics::AxialRange>> zones;
    zones.reserve(scene.people.size());
    for (const scene::Person& person : scene.people) {
        const scene::Seen eye = project(view, nearer_eye_m(view, person));
        zones.push_back(eye.axial_m > 0 ? sharp.at(eye.image_height) : std::nullopt);
    }
    return zones;
}

std::vector<std::optional<optics::AxialRange>> zones_at(const scene::Scene& scene,
                                                        const scene::CameraView& view,
                                                        optics::Grade grade,
                                                        std::span<const double> image_heights) {
    const auto limit_mm = blur_limit_mm(grade, scene, view);
    if (!limit_mm)
        return std::vector<std::optional<optics::AxialRange>>(image_heights.size());
    const optics::SharpZones sharp{view.focused(), *limit_mm};
    std::vector<std::optional<optics::AxialRange>> zones;
    zones.reserve(image_heights.size());
    for (const double image_height : image_heights)
        zones.push_back(sharp.at(image_height));
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
