#include "plan/faces/whole_group.h"

#include "scene/camera_view.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace backrow::plan {
namespace {

constexpr double most_times = 4;

/// The least step, counted from one, that will do; what does, does beyond as well.
template <class Does>
std::optional<int> least_step(int most, const Does& does) {
    if (most < 1 || !does(most))
        return std::nullopt;
    int too_little = 0;
    while (most - too_little > 1) {
        const int middle = (most + too_little) / 2;
        (does(middle) ? most : too_little) = middle;
    }
    return most;
}

}  // namespace

FrameCuts frame_cuts(const scene::Scene& scene) {
    const scene::CameraView view = camera_view(scene);
    std::vector<Cropping> croppings;
    for (const scene::Person& person : scene.people)
        croppings.push_back(cropping(view, posed_body(person)));
    return frame_cuts(croppings);
}

WholeGroup whole_group(const scene::Scene& scene) {
    const scene::Camera& camera = scene.camera;
    constexpr double step_m = 0.01;
    constexpr double step_mm = 1;
    const auto stepped_back = [&](int steps) {
        scene::Scene farther = scene;
        farther.camera.lens_to_mark_m =
            std::ceil(camera.lens_to_mark_m / step_m) * step_m + (steps - 1) * step_m;
        return farther;
    };
    const auto shortened = [&](int steps) {
        scene::Scene wider = scene;
        wider.camera.focal_length_mm =
            std::floor(camera.focal_length_mm / step_mm) * step_mm - (steps - 1) * step_mm;
        return wider;
    };
    WholeGroup whole;
    if (const auto steps =
            least_step(static_cast<int>((most_times - 1) * camera.lens_to_mark_m / step_m),
                       [&](int many) { return frame_cuts(stepped_back(many)).is_whole_group(); }))
        whole.lens_to_mark_m = stepped_back(*steps).camera.lens_to_mark_m;
    // Few enough to try them one by one.
    const auto most_shorter =
        static_cast<int>((1 - 1 / most_times) * camera.focal_length_mm / step_mm);
    for (int steps = 1; steps <= most_shorter && !whole.focal_length_mm; ++steps)
        if (const scene::Scene wider = shortened(steps); frame_cuts(wider).is_whole_group())
            whole.focal_length_mm = wider.camera.focal_length_mm;
    return whole;
}

std::optional<WholeGroup> mend_framing(const scene::Scene& scene, const FrameCuts& cut) {
    const bool is_meant = cut.heads.empty() && cut.heads_close.empty() &&
                          (cut.bodies.empty() || cut.bodies.size() == scene.people.size());
    return is_meant ? std::nullopt : std::optional{whole_group(scene)};
}

}  // namespace backrow::plan
