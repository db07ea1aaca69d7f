#pragma once

// What is different in two scenes' place and light, as one would say it: "sun 30° further round,
// 20° high", "hedge 4 m behind → 8 m".

#include "rehearsal/told/told.h"

#include "scene/scene.h"

namespace backrow::rehearsal {

/// Ground, backdrops, models.
void tell_place(const scene::Scene& before, const scene::Scene& after, Told& told);

/// Sun, window, brightness.
void tell_light(const scene::Light& before, const scene::Light& after, Told& told);

}  // namespace backrow::rehearsal
