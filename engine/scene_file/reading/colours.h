#pragma once

// Colours as a scene file names them: a word for the colour of a cloth, or #rrggbb.

#include <glm/vec3.hpp>

#include <optional>
#include <string_view>
#include <vector>

namespace backrow::scene_file {

/// The colour, linear, of a word or of six hexadecimal digits after a #, which are sRGB [IEC61966];
/// capitals don't count. Nothing for anything else.
[[nodiscard]] std::optional<glm::dvec3> linear_from_named_colour(std::string_view name);

/// Every word that is a colour, from light to dark hues.
[[nodiscard]] const std::vector<std::string_view>& colour_words();

}  // namespace backrow::scene_file
