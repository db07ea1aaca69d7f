#pragma once

// What a photographer looks at first where there is sun: where it stands, whom it dazzles, whose
// shadow lies on whom. By geometry, and all of it common practice, no source.

#include "plan/faces/face_table.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include <cstddef>
#include <vector>

namespace backrow::plan {

/// Where the light comes from.
enum class LightFrom {
    behind_camera,  ///< The sun, within 45° of the camera's back.
    aside,          ///< The sun, from picture left or right.
    behind_group,   ///< The sun, within 45° of straight behind the group.
    overhead,       ///< The sun, so high that brows shade the eyes.
    sky,            ///< No sun that casts shadows.
    below_horizon,  ///< The same, for the sun has set.
    window
};

struct SunChecks {
    LightFrom from = LightFrom::sky;
    bool is_in_frame = false;  ///< The sun itself, unless something hides it.
    // Indices of faces, in the order of the table.
    std::vector<std::size_t> in_eyes{};
    std::vector<std::size_t> backlit{};
    std::vector<std::size_t> under_hats{};
    std::vector<std::size_t> shadow_across{};  ///< Whose face has one; from whom, Face::shaders.
};

/// view   camera_view() of this scene
/// table  face_table() of both
[[nodiscard]] SunChecks sun_checks(const scene::Scene& scene, const scene::CameraView& view,
                                   const FaceTable& table);

}  // namespace backrow::plan
