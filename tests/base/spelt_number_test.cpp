#include "base/spelt_number.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

namespace backrow {
namespace {

double number(const std::string& text, Measure measure) {
    const auto read = number_from_spelling(text, measure);
    INFO(text);
    REQUIRE(read);
    return *read;
}

/// The mend; "-" where it is a number after all.
std::string mend(const std::string& text, Measure measure) {
    const auto read = number_from_spelling(text, measure);
    return read ? "-" : read.error();
}

}  // namespace

TEST_CASE("a plain number is itself, whatever it measures", "[base][property]") {
    for (const Measure measure :
         {Measure::plain, Measure::metres, Measure::stature_m, Measure::centimetres,
          Measure::millimetres, Measure::seconds, Measure::f_number}) {
        CHECK(number("2.8", measure) == 2.8);
        CHECK(number(" 0.5 ", measure) == 0.5);
        CHECK(number("1e1", measure) == 10);
        CHECK(number("-3", measure) == -3);
    }
}

TEST_CASE("apertures and shutters are read as they are engraved", "[base][property]") {
    for (const char* text : {"f/2.8", "F/2.8", "f2.8", "f / 2.8", "f/2,8", "2,8", "ƒ/2.8"})
        CHECK(number(text, Measure::f_number) == 2.8);
    for (const char* text : {"1/200", "1/200 s", "1/200s", "1 / 200 sec", "0,005"})
        CHECK(number(text, Measure::seconds) == 1.0 / 200);
    CHECK(number("2 s", Measure::seconds) == 2);
    CHECK(number("1,5", Measure::seconds) == 1.5);
}

// The international foot is 0.3048 m and its inch 0.0254 m, exactly (1959; from memory).
TEST_CASE("lengths are read in metres and in feet", "[base][from-memory]") {
    CHECK(number("30 ft", Measure::metres) == Approx(9.144).epsilon(1e-15));
    CHECK(number("30'", Measure::metres) == Approx(9.144).epsilon(1e-15));
    for (const char* text : {"6ft2", "6 ft 2 in", "6ft 2in", "6'2\"", "6'2", "6′2″", "6’2”",
                             "6 feet 2 inches", "6 ft. 2 in.", "74 in", "74\""})
        CHECK(number(text, Measure::stature_m) == Approx(1.8796).epsilon(1e-15));
    for (const char* text : {"1.82", "1,82", "1.82 m", "182 cm", "182cm", "1820 mm", "182"})
        CHECK(number(text, Measure::stature_m) == Approx(1.82).epsilon(1e-15));
    CHECK(number("85mm", Measure::millimetres) == 85);
    CHECK(number("8.5 cm", Measure::millimetres) == Approx(85).epsilon(1e-15));
    CHECK(number("12 in", Measure::centimetres) == Approx(30.48).epsilon(1e-15));
    CHECK(number("-2 ft", Measure::metres) == Approx(-0.6096).epsilon(1e-15));
}

TEST_CASE("only a stature may be centimetres unsaid", "[base][property]") {
    CHECK(number("182", Measure::metres) == 182);
    CHECK(number("59", Measure::stature_m) == 59);
    CHECK(number("60", Measure::stature_m) == 0.6);
    CHECK(number("260", Measure::stature_m) == 2.6);
    CHECK(number("261", Measure::stature_m) == 261);
}

TEST_CASE("a comma that may part thousands is asked about", "[base][property]") {
    CHECK(mend("1,600", Measure::plain) == "write 1600 or 1.600, without a comma");
    CHECK(mend("10,500", Measure::metres) == "write 10500 or 10.500, without a comma");
    CHECK(number("0,004", Measure::seconds) == 0.004);
    CHECK(number("1,6", Measure::plain) == 1.6);
    CHECK(number("1,6000", Measure::plain) == 1.6);
}

TEST_CASE("what is no number, or one of something else, is none", "[base][property]") {
    for (const char* text : {"", " ", "wide", "f/", "f/wide", "2.8.1", "1/200", "30 ft", "2,8,4",
                             ",8", "2,", "nan", "inf", "2 x"})
        CHECK(mend(text, Measure::plain).empty());
    CHECK(mend("f/2.8", Measure::metres).empty());
    CHECK(mend("1/200", Measure::f_number).empty());
    CHECK(mend("1/0", Measure::seconds).empty());
    CHECK(mend("30 ft", Measure::seconds).empty());
    CHECK(mend("6'14\"", Measure::stature_m).empty());
    CHECK(mend("6 m 2", Measure::metres).empty());
    CHECK(mend("6 ft 2 cm", Measure::metres).empty());
}

TEST_CASE("a key says by its ending what it measures", "[base][property]") {
    CHECK(measure_of_key("camera.distance_m") == Measure::metres);
    CHECK(measure_of_key("stature_m") == Measure::stature_m);
    CHECK(measure_of_key("focal_length_mm") == Measure::millimetres);
    CHECK(measure_of_key("print_long_side_cm") == Measure::centimetres);
    CHECK(measure_of_key("shutter_s") == Measure::seconds);
    CHECK(measure_of_key("widest_f_number") == Measure::f_number);
    CHECK(measure_of_key("iso") == Measure::plain);
    CHECK(measure_of_key("speed_mps") == Measure::plain);
}

}  // namespace backrow
