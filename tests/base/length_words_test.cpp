#include "base/length_words.h"

#include <catch2/catch.hpp>

#include <limits>

namespace backrow {

using enum LengthScale;

TEST_CASE("metric lengths are written on the scale that suits them", "[base][property]") {
    const auto words = [](double m, LengthScale scale) {
        return length_words(m, scale, Units::metric);
    };
    CHECK(words(4.584, metres) == "4.58 m");
    CHECK(words(9.4, short_metres) == "9.4 m");
    CHECK(words(0.084, centimetres) == "8.4 cm");
    CHECK(words(0.14, centimetres) == "14 cm");
    CHECK(words(0.084, whole_centimetres) == "8 cm");
    CHECK(words(0.1944, millimetres) == "194 mm");
    CHECK(words(0.0036, given_millimetres) == "3.6 mm");
    CHECK(length_digits(4.584, metres, Units::metric) == "4.58");
}

// An inch is 25.4 mm, a foot twelve of them.
TEST_CASE("imperial lengths are feet and whole inches, small ones two digits of inches",
          "[base][property]") {
    const auto words = [](double m, LengthScale scale) {
        return length_words(m, scale, Units::imperial);
    };
    CHECK(words(4.572, metres) == "15 ft 0 in");
    CHECK(words(1.8796, metres) == "6 ft 2 in");
    CHECK(words(1.8287, metres) == "6 ft 0 in");  // 5 ft 11.996 in
    CHECK(words(-0.6096, metres) == "-2 ft 0 in");
    CHECK(words(0.19304, short_metres) == "7.6 in");
    CHECK(words(0.19304, millimetres) == "7.6 in");
    CHECK(words(0.35, centimetres) == "14 in");
    CHECK(words(0.006, given_millimetres) == "0.24 in");
    CHECK(words(0.0, millimetres) == "0 in");
    CHECK(length_digits(1.8796, metres, Units::imperial) == "6'2\"");
    CHECK(length_digits(0.2032, metres, Units::imperial) == "0'8\"");
    CHECK(length_digits(-0.19304, millimetres, Units::imperial) == "-7.6");
}

TEST_CASE("an endless length has no unit, and headings name theirs", "[base][property]") {
    const double endless_m = std::numeric_limits<double>::infinity();
    for (const Units units : {Units::metric, Units::imperial}) {
        CHECK(length_words(endless_m, metres, units) == "infinity");
        CHECK(length_digits(endless_m, centimetres, units) == "∞");
    }
    CHECK(std::string{length_unit(metres, Units::metric)} == "m");
    CHECK(std::string{length_unit(centimetres, Units::metric)} == "cm");
    CHECK(std::string{length_unit(given_millimetres, Units::metric)} == "mm");
    CHECK(std::string{length_unit(short_metres, Units::imperial)} == "ft");
    CHECK(std::string{length_unit(whole_centimetres, Units::imperial)} == "in");
}

}  // namespace backrow
