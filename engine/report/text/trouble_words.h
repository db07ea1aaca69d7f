#pragma once

// What is wrong with a group picture, in words; one wording for tables, strips and the window.

#include "plan/faces/face_table.h"
#include "plan/faces/whole_group.h"
#include "report/text/json.h"
#include "scene/scene.h"

#include "base/length_words.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace backrow::report {

/// "hidden by Odile and Bram"; nothing for a face that is not hidden.
[[nodiscard]] std::string hidden_words(const plan::Face& face);

/// "cut at the waist", "cut at the side"; nothing for somebody who is whole.
[[nodiscard]] std::string cut_words(const plan::Face& face);

/// What is in the way of the face itself: hidden_words(), or cut_words() of a head.
[[nodiscard]] std::string face_trouble_words(const plan::Face& face);

/// One sentence each, the worst first, without line breaks: who is hidden and by whom, whose heads
/// are cut, or nearly, and where the frame cuts bodies.
[[nodiscard]] std::vector<std::string> trouble_sentences(std::span<const plan::Face> faces);

/// From where, or through which lens, everybody would be whole in the picture, as a sentence
/// without a line break; nothing where there is no such place or nothing to mend.
[[nodiscard]] std::string whole_group_sentence(const std::optional<plan::WholeGroup>& whole,
                                               Units units);

/// Who is in trouble, as JSON has it: names, in the order of the people.
[[nodiscard]] Json names_json(std::span<const scene::Person> people,
                              const std::vector<std::size_t>& who);

/// Likewise what would mend the framing; null where nothing is to be mended.
[[nodiscard]] Json whole_group_json(const std::optional<plan::WholeGroup>& whole);

/// The sentences in a few words: "2 hidden, 1 head cut"; nothing where nothing is.
[[nodiscard]] std::string short_trouble_words(std::span<const plan::Face> faces);

}  // namespace backrow::report
