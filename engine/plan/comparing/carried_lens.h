#pragma once

// Lenses that could be used in place of the scene's, and what is known of their faults.

#include "scene/scene.h"

#include "optics/lens/lens_profile.h"

#include <optional>
#include <string>

namespace backrow::plan {

struct CarriedLens {
    double focal_length_mm = 50;
    double widest_f_number = 1.2;                  ///< 0 where nobody has said.
    std::optional<optics::LensProfile> profile{};  ///< None: the scene's own has the scene's.
    std::string profile_file{};                    ///< As `lens.profile` names it.

    bool operator==(const CarriedLens&) const = default;
};

/// The lens of the scene. Nobody says how far it opens but its profile and the f-number that is
/// set: the wider of the two.
[[nodiscard]] CarriedLens scene_lens(const scene::Scene& scene);

/// The narrowest opening that the lens of the scene closes to; infinite where nobody said.
[[nodiscard]] double narrowest_f_number(const scene::Scene& scene) noexcept;

/// Whether sharpness rests on a perfect lens where few lenses are: wider open than f/2, with
/// nothing known of its faults (common practice, no source: best two or three stops down).
[[nodiscard]] bool trusts_perfect_lens(const scene::Scene& scene);
/// At another opening of its lens.
[[nodiscard]] bool trusts_perfect_lens(const scene::Scene& scene, double f_number);

/// The scene with this lens, its opening as it was. One without a profile of its own that has the
/// focal length of the scene's and opens no further is the scene's; any other is a perfect one:
/// nothing is known of its faults.
[[nodiscard]] scene::Scene with_lens(scene::Scene scene, const CarriedLens& lens);

/// The same with a focal length alone.
[[nodiscard]] scene::Scene with_lens(scene::Scene scene, double focal_length_mm);

}  // namespace backrow::plan
