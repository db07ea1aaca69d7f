#pragma once

// The scales that are engraved on lenses and cameras. A stop is a factor of two in light; the
// numbers on the rings are round stand-ins for exact ones: f/5.6 for √2⁵, 1/125 s for 1/128 s.
//
// f-numbers stand on the scale of powers of √2 [ISO517], from memory. The marks of shutter and ISO
// are common practice, no source.
//
// A trap: "1.2" is the mark of the half stop above 1, 1.189, and of the third stop
// below 1.4, 1.260. exact_f_number() takes the nearer, 1.189; depth of field takes the number as
// typed and so does not ask.

#include <span>
#include <string>

namespace backrow::optics {

/// √2^stops: stops counted from f/1 towards smaller openings.
[[nodiscard]] double f_number_from_stops(double stops) noexcept;

/// Its inverse, 2·log₂ N; f_number > 0 and exact, as exact_f_number() gives it.
[[nodiscard]] double stops_from_f_number(double f_number) noexcept;

/// What an engraved f-number stands for: the nearest exact half or third stop, if the number is a
/// mark of either scale between 1 and 22; any other number as it is.
[[nodiscard]] double exact_f_number(double engraved) noexcept;

/// Stops of light lost from one engraved f-number to another, between what they stand for; negative
/// where the second opening is wider.
[[nodiscard]] double stops_between(double from_f_number, double to_f_number) noexcept;

/// Marks in third stops: f-numbers 1 … 22, shutters 30 … 1/8000 s, ISO 50 … 102400; in the order in
/// which they darken the picture, and for ISO brighten it.
[[nodiscard]] std::span<const double> marked_f_numbers() noexcept;
[[nodiscard]] std::span<const double> marked_shutters_s() noexcept;
[[nodiscard]] std::span<const double> marked_isos() noexcept;

/// Whether it is a mark of the scale of whole stops.
[[nodiscard]] bool is_full_stop(double f_number) noexcept;

/// The nearest mark, in stops; the value itself where the scale ends more than a sixth of a stop
/// before it.
[[nodiscard]] double marked_shutter_s(double shutter_s) noexcept;
[[nodiscard]] double marked_iso(double iso) noexcept;

/// The longest marked shutter that is no longer than this one; the value itself where it is shorter
/// than all marks.
[[nodiscard]] double marked_shutter_within_s(double shutter_s) noexcept;

/// "2⅓", "½", "1", "0", "−1½": the nearest whole, third or half.
[[nodiscard]] std::string stops_digits(double stops);

/// "2⅓ stops", "½ stop", "1 stop", "0 stops", "−1½ stops": the nearest whole, third or half.
[[nodiscard]] std::string stops_words(double stops);

/// "1/250 s", "0.4 s", "30 s". A fraction where that is within 3 %, else two digits that count.
[[nodiscard]] std::string shutter_words(double shutter_s);

/// A limit on the shutter, on the marks of a camera: the longest within it, or "any".
[[nodiscard]] std::string longest_shutter_words(double limit_s);

}  // namespace backrow::optics
