#pragma once

// Numbers as photographers write them: f/2.8, 1/200 s, 30 ft, 6'2", 182 cm, 2,8. The one place that
// reads such spellings, for scene files, --set and options alike.

#include <tl/expected.hpp>

#include <string>
#include <string_view>

namespace backrow {

/// What a number measures, and in which unit it is wanted.
enum class Measure { plain, metres, stature_m, centimetres, millimetres, seconds, f_number };

/// By the unit that ends a key: "camera.distance_m" is in metres, "f_number" an f-number.
[[nodiscard]] Measure measure_of_key(std::string_view key);

/// The number that is meant. Spaces around and inside do not count.
///
///     f_number    2.8, f/2.8, f2.8
///     seconds     0.005, 1/200, 1/200 s, 2 s
///     lengths     1.82, 1.82 m, 182 cm, 1820 mm, 30 ft, 74 in, 6 ft 2 in, 6ft2, 6'2"
///     any         2,8 for 2.8
///
/// A foot is 0.3048 m and an inch 0.0254 m, exactly. A comma with three digits after it may part
/// thousands as well, unless a nought stands before it, so it is taken for neither.
///
/// returns  the number in the measure's own unit, finite; or how to mend the spelling, without
///          words where it is none
[[nodiscard]] tl::expected<double, std::string> number_from_spelling(std::string_view text,
                                                                     Measure measure);

/// Whether it is digits alone, with point, sign and exponent, as files and programs write numbers.
[[nodiscard]] bool is_plain_number(std::string_view text);

/// A stature of 60 to 260 is in centimetres, for nobody is so many metres tall; every other number
/// is what it says.
[[nodiscard]] double as_meant(double number, Measure measure) noexcept;

}  // namespace backrow
