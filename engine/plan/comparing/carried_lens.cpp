#include "plan/comparing/carried_lens.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace backrow::plan {

CarriedLens scene_lens(const scene::Scene& scene) {
    const double set = scene.camera.f_number;
    return {.focal_length_mm = scene.camera.focal_length_mm,
            .widest_f_number =
                scene.lens.profile ? std::min(set, scene.lens.profile->widest_f_number) : set};
}

double narrowest_f_number(const scene::Scene& scene) noexcept {
    return scene.lens.profile ? optics::narrowest_f_number(*scene.lens.profile)
                              : std::numeric_limits<double>::infinity();
}

bool trusts_perfect_lens(const scene::Scene& scene) {
    return trusts_perfect_lens(scene, scene.camera.f_number);
}

bool trusts_perfect_lens(const scene::Scene& scene, double f_number) {
    constexpr double widest_trusted = 2.0;
    return !scene.lens.profile && f_number < widest_trusted;
}

scene::Scene with_lens(scene::Scene scene, const CarriedLens& lens) {
    const auto own = scene.lens.profile;
    scene = with_lens(std::move(scene), lens.focal_length_mm);
    const bool opens_further =
        own && lens.widest_f_number > 0 && lens.widest_f_number < own->widest_f_number;
    if (lens.profile || opens_further) {
        scene.lens.profile = lens.profile;
        scene.lens.profile_file = lens.profile_file;
    }
    return scene;
}

scene::Scene with_lens(scene::Scene scene, double focal_length_mm) {
    if (focal_length_mm != scene.camera.focal_length_mm) {
        scene.lens.profile.reset();
        scene.lens.profile_file.clear();
    }
    scene.camera.focal_length_mm = focal_length_mm;
    return scene;
}

}  // namespace backrow::plan
