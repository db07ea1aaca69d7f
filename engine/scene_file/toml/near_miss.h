#pragma once

// Guessing which known word a mistyped one was meant to be.

#include <string>
#include <string_view>
#include <vector>

namespace backrow::scene_file {

/// Fewest letters to add, drop, change or swap with a neighbour (each neighbour swapped at most
/// once) to make one word of the other.
[[nodiscard]] int letters_apart(std::string_view one, std::string_view other);

/// The known word most like this one, empty where none is like it: about a third of the letters may
/// be wrong, or the rest of the word missing. Capitals don't count.
[[nodiscard]] std::string nearest_word(std::string_view word,
                                       const std::vector<std::string_view>& known);

/// "did you mean `stature_m`?", or otherwise "… are known: a, b, c" after the words of `known_are`.
[[nodiscard]] std::string suggestion(std::string_view word,
                                     const std::vector<std::string_view>& known,
                                     std::string_view known_are);

/// Text from a user's file, fit to stand in a message: at most about 60 characters.
[[nodiscard]] std::string shortened(std::string_view text);

}  // namespace backrow::scene_file
