#pragma once

// What a strip has to say, in words that the sheet and the table share.

#include "plan/comparing/strip.h"
#include "scene/scene.h"

#include "base/length_words.h"

#include <cstddef>
#include <string>

namespace backrow::report {

/// What the places of a strip were told by.
enum class PlacesBy { distance, focal_length };

struct StripSubject {
    scene::Scene scene;
    plan::Strip strip;  ///< Somebody's face lies whole in every frame.
    PlacesBy places_by = PlacesBy::distance;
    bool framing_kept = false;    ///< Heads as large in every frame as the scene has them.
    Units units = Units::metric;  ///< Of sheet and text.
};

/// Of the frame of this index.
[[nodiscard]] const plan::StripPlace& place_of(const StripSubject& subject, std::size_t frame);
[[nodiscard]] double f_number_of(const StripSubject& subject, std::size_t frame);
[[nodiscard]] const plan::Face& worst_of(const StripSubject& subject, std::size_t frame);

/// "85 mm", "56.1 mm".
[[nodiscard]] std::string lens_words(double focal_length_mm);

/// What is the same in all frames, a sentence.
[[nodiscard]] std::string strip_common_words(const StripSubject& subject);

/// That the lenses were not judged alike, for one with a profile is not perfect and the others are;
/// or that all are perfect and few are so, wide open (perfect_lens_note()).
/// Empty where they were.
[[nodiscard]] std::string profile_words(const scene::Scene& scene, const plan::Strip& strip);

}  // namespace backrow::report
