#pragma once

// Quantities as papers say them: in a language, lengths in metres or in feet and inches, and where
// somebody walks, in paces. No line breaks between a number and its unit.

#include "papers/words/language.h"
#include "plan/faces/verdict.h"
#include "scene/scene.h"

#include "optics/exposure/right_exposure.h"

#include "base/length_words.h"

#include <cstddef>
#include <string>

namespace backrow::papers {

/// A pace. Common practice, no source.
inline constexpr double pace_m = 0.75;

/// "4.58 m", "15 ft 0 in"; "infinity".
[[nodiscard]] std::string distance_words(double m, const Language& language, Units units);

/// "8 cm", "3.1 in"; "any distance" where it has no end.
[[nodiscard]] std::string room_words(double m, const Language& language, Units units);

/// "8 paces", "½ pace": to the nearest half.
[[nodiscard]] std::string pace_words(double m, const Language& language);

/// "85 mm".
[[nodiscard]] std::string lens_words(double focal_length_mm, const Language& language);

/// "f/2.8".
[[nodiscard]] std::string f_number_words(double engraved, const Language& language);

/// "1/100 s".
[[nodiscard]] std::string shutter_words(double shutter_s, const Language& language);

/// "ISO 200".
[[nodiscard]] std::string iso_words(double iso, const Language& language);

/// "grey filter of 2 stops".
[[nodiscard]] std::string filter_words(double stops, const Language& language);

/// "1/100 s, ISO 250", and the filter where there is one.
[[nodiscard]] std::string exposure_words(const optics::ExposureSetting& set,
                                         const Language& language);

/// "in a picture 30 cm long, seen from 40 cm", "looked at pixel by pixel".
[[nodiscard]] std::string viewing_words(const scene::Viewing& viewing, const Language& language,
                                        Units units);

/// "People: 12. Rows: 3."
[[nodiscard]] std::string group_words(std::size_t people, std::size_t rows,
                                      const Language& language);

[[nodiscard]] std::string verdict_word(plan::Verdict verdict, const Language& language);

}  // namespace backrow::papers
