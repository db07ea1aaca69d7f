#pragma once

// How far to stop down for somebody who cannot stand in line.

#include "scene/scene.h"

#include "optics/blur/viewing.h"

#include <optional>

namespace backrow::plan {

/// The widest third stop, the scene's own opening or narrower, at which every face may drift so far
/// towards the camera or away from it and still be as good as this. All else stays, the focus is
/// found anew.
///
/// margin_m  ≥ 0
/// grade     crisp, fine or soft
/// returns   an f-number as engraved; nothing where f/22 will not do
[[nodiscard]] std::optional<double> f_number_for_margin(scene::Scene scene, double margin_m,
                                                        optics::Grade grade = optics::Grade::fine);

}  // namespace backrow::plan
