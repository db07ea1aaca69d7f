#pragma once

// What the sun does to faces, by geometry: no picture is made. A window and an overcast sky are
// soft and do none of it.

#include "plan/faces/visibility.h"
#include "scene/scene.h"

#include <cstddef>
#include <string>
#include <vector>

namespace backrow::plan {

/// All of it common practice, no source.
struct FaceLight {
    bool sun_in_eyes = false;  ///< Turned to a sun that is lower than brows can shade.
    bool is_backlit = false;   ///< The sun stands behind the head.
    bool hat_shades = false;   ///< The sun stands so high that the brim's shadow lies on the eyes.
    /// Share of what the sun would light of the face that others shade, 0 … 1.
    double shaded = 0;
    Visibility from_sun{};  ///< The face as the sun sees it; empty where it does not.

    /// An edge of shadow lies across the face: neither nearly all of it nor nearly none is shaded.
    [[nodiscard]] bool has_shadow_across() const noexcept;
};

/// Whether there is a sun that casts shadows: above the horizon, under the open sky, and brighter
/// than an overcast day (EV 12 at ISO 100 is open shade or heavy overcast, [ANSIPH27]).
[[nodiscard]] bool has_sun(const scene::Light& light) noexcept;

/// Nothing of it where the light has no sun.
///
/// person     index in Scene::people; bodies and obstacles as visibility() takes them
[[nodiscard]] FaceLight face_light(const scene::Scene& scene, std::size_t person,
                                   const FaceShape& face, const std::vector<Body>& bodies,
                                   const std::vector<Obstacle>& obstacles);

/// "sun in the eyes", "backlit", "a shadow across the face", "the hat's shadow on the eyes".
[[nodiscard]] std::vector<std::string> words_for(const FaceLight& light);

}  // namespace backrow::plan
