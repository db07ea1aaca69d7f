#pragma once

// How lengths are worded: in metres, centimetres and millimetres, or in feet and inches. The one
// place that knows the second way, for tables, sentences, charts and sheets alike. Focal lengths,
// sensors and blur on the sensor are millimetres and micrometres to every photographer.

#include <string>

namespace backrow {

/// What people read lengths in. JSON, CSV and scene files are metric whatever is chosen here.
enum class Units { metric, imperial };

/// How a length is written where it is metric.
enum class LengthScale {
    metres,             ///< "4.58"
    short_metres,       ///< "9.4": as typed, two digits after the point at most.
    centimetres,        ///< "8.4", from ten on "14".
    whole_centimetres,  ///< "8"
    millimetres,        ///< "194"
    given_millimetres   ///< "3.6": with the digits that it was given with.
};

/// With its unit: "4.58 m", "194 mm"; "15 ft 0 in", under a foot and on the smaller scales "7.6
/// in". An endless one is "infinity".
[[nodiscard]] std::string length_words(double m, LengthScale scale, Units units);

/// For a column that has the unit in its heading: "4.58", "194"; "15'0\"", "7.6". An endless one is
/// "∞".
[[nodiscard]] std::string length_digits(double m, LengthScale scale, Units units);

/// The heading's unit: "m", "cm", "mm"; "ft", "in".
[[nodiscard]] const char* length_unit(LengthScale scale, Units units) noexcept;

}  // namespace backrow
