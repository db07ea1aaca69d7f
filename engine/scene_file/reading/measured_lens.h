#pragma once

// The errors of a lens from its sharpness as somebody measured it: MTF50 by aperture and place.

#include "scene_file/reading/lens_profile_file.h"

#include <cstddef>
#include <optional>

namespace backrow::scene_file {

/// As few say nothing of the errors of a lens.
inline constexpr std::size_t fewest_measured = 6;

/// As what frames the measurements are taken: of a chart 40 focal lengths away.
[[nodiscard]] optics::TestShots measured_shots(const NamedLensProfile& lens);

/// Measurements are taken for those of a flat chart, 40 focal lengths away and focused once, each
/// of lines both ways and known to some 3 %. What the profile says beside them, of light above all,
/// is taken as it is. What was found last is kept, for scenes are read again and again.
///
/// lens     its four errors are of no account
/// returns  nothing from fewer than that
[[nodiscard]] std::optional<optics::ProfileFit> fit_measured(const NamedLensProfile& lens);

}  // namespace backrow::scene_file
