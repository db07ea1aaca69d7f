#pragma once

// How what is done by hand reads.

#include "scene/scene.h"

#include "base/length_words.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace backrow::rehearsal {

[[nodiscard]] double to_the_centimetre(double metres);

/// A number as it is said: "2.8", "85", "3.5".
[[nodiscard]] std::string plain(double value);

/// "12 cm" and "3.5 m", both to the centimetre.
[[nodiscard]] std::string in_cm(double metres, Units units);
[[nodiscard]] std::string in_m(double metres, Units units);

/// "4 cm back", "2 cm to the right and 1 cm forward"; nothing for less than half a centimetre.
[[nodiscard]] std::string step_words(double across_m, double back_m, Units units);

/// "Ana", "Ana and Ben", "Ana, Ben and Cleo"; "4 people" for more.
[[nodiscard]] std::string who_words(const std::vector<std::string>& names);
[[nodiscard]] std::string who_words(const scene::Scene& scene, std::span<const std::size_t> people);

}  // namespace backrow::rehearsal
