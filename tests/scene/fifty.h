#pragma once

// A camera whose numbers are easily worked out by hand: 50 mm wide open, four and a half metres
// from the mark.

#include "scene/scene.h"

namespace backrow::scene {

inline Camera fifty_wide_open() {
    Camera camera;
    camera.focal_length_mm = 50;
    camera.f_number = 1.2;
    camera.lens_to_mark_m = 4.5;
    return camera;
}

/// Nobody before it yet.
inline Scene before_fifty() {
    Scene scene;
    scene.camera = fifty_wide_open();
    return scene;
}

}  // namespace backrow::scene
