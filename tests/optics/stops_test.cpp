#include "optics/exposure/stops.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstddef>
#include <span>

using namespace backrow::optics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

// [ISO517], from memory: N = √2^k, thirds of a stop 2^(k/6), halves 2^(k/4), worked out apart.
// Tolerance: half of the last digit written down.
TEST_CASE("an engraved f-number stands for a power of the root of two", "[optics][from-memory]") {
    struct Row {
        double engraved, exact;
    };
    for (const auto& row :
         {Row{1, 1},         Row{1.4, 1.41421}, Row{2, 2},         Row{2.8, 2.82843},
          Row{4, 4},         Row{5.6, 5.65685}, Row{8, 8},         Row{11, 11.31371},
          Row{16, 16},       Row{22, 22.62742},  // whole stops
          Row{1.1, 1.12246}, Row{1.6, 1.58740}, Row{1.8, 1.78180}, Row{3.2, 3.17480},
          Row{3.5, 3.56359}, Row{13, 12.69921},  // third stops
          Row{1.7, 1.68179}, Row{2.4, 2.37841}, Row{3.3, 3.36359}, Row{9.5, 9.51366}}) {  // halves
        CAPTURE(row.engraved);
        CHECK_THAT(exact_f_number(row.engraved), WithinAbs(row.exact, 0.000005));
    }
}

// [ISO517], from memory: 2^¼ = 1.18921 and 2^⅓ = 1.25992 are both engraved as 1.2; the first is
// nearer.
TEST_CASE("f/1.2 is the half stop, not the third", "[optics][from-memory]") {
    CHECK_THAT(exact_f_number(1.2), WithinAbs(1.18921, 0.000005));
}

TEST_CASE("a number that is engraved nowhere stands for itself", "[optics][property]") {
    for (const double f_number : {0.95, 1.9, 2.67, 7.805, 45.0})
        CHECK(exact_f_number(f_number) == f_number);
}

// On the exact scale [ISO517], from memory, these are 3, 1½ and 2½ stops; from the digits as
// engraved they would come out as 3.0291, 1.4739 and 2.4448. Tolerance: rounding of a logarithm.
TEST_CASE("stops are counted between what the marks stand for", "[optics][from-memory]") {
    CHECK_THAT(stops_between(1.4, 4), WithinAbs(3, 1e-12));
    CHECK_THAT(stops_between(1.2, 2), WithinAbs(1.5, 1e-12));
    CHECK_THAT(stops_between(1.2, 2.8), WithinAbs(2.5, 1e-12));
    CHECK_THAT(stops_between(2.8, 1.2), WithinAbs(-2.5, 1e-12));
    CHECK_THAT(f_number_from_stops(stops_from_f_number(1.95)), WithinRel(1.95, 1e-12));
}

// Which numbers are engraved is common practice, no source. A mark is the round number for its
// exact value: never further off than half of a third.
TEST_CASE("the scales climb in third stops", "[optics][practice]") {
    const auto check = [](std::span<const double> marks, double first, double a_third_on) {
        for (std::size_t k = 0; k < marks.size(); ++k) {
            CAPTURE(marks[k]);
            const double exact = first * std::pow(a_third_on, static_cast<double>(k));
            const double light_off = std::log2(marks[k] / exact) / std::log2(a_third_on) / 3;
            CHECK(std::abs(light_off) < 1.0 / 6);
        }
    };
    check(marked_f_numbers(), 1, std::pow(2, 1.0 / 6));
    check(marked_shutters_s(), 32, std::pow(2, -1.0 / 3));
    check(marked_isos(), 50, std::pow(2, 1.0 / 3));
    CHECK(marked_f_numbers().back() == 22);
    CHECK(marked_shutters_s().front() == 30);
    CHECK(marked_shutters_s().back() == 1.0 / 8000);
    CHECK(marked_isos().back() == 102400);
}

TEST_CASE("every mark is its own nearest", "[optics][property]") {
    for (const double shutter_s : marked_shutters_s()) {
        CHECK(marked_shutter_s(shutter_s) == shutter_s);
        CHECK(marked_shutter_within_s(shutter_s) == shutter_s);
    }
    for (const double iso : marked_isos())
        CHECK(marked_iso(iso) == iso);
}

// 2⅓ stops from 1/250 s and from ISO 100: 0.004·2^(7/3) = 0.02016 s, 504.
TEST_CASE("what lies between marks goes to the nearest", "[optics][property]") {
    CHECK(marked_shutter_s(0.02016) == 1.0 / 50);
    CHECK(marked_iso(504) == 500);
    CHECK(marked_shutter_s(31) == 30);
    CHECK(marked_shutter_within_s(1.0 / 85) == 1.0 / 100);
    CHECK(marked_shutter_within_s(45) == 30);
}

TEST_CASE("beyond the ends of a scale there is nothing to round to", "[optics][property]") {
    CHECK(marked_shutter_s(60) == 60);
    CHECK(marked_shutter_s(1.0 / 16000) == 1.0 / 16000);
    CHECK(marked_shutter_within_s(1.0 / 16000) == 1.0 / 16000);
    CHECK(marked_iso(25) == 25);
    CHECK(marked_iso(409'600) == 409'600);
}

TEST_CASE("stops are said in thirds and halves", "[optics][property]") {
    CHECK(stops_words(7.0 / 3) == "2⅓ stops");
    CHECK(stops_words(0.5) == "½ stop");
    CHECK(stops_words(0.34) == "⅓ stop");
    CHECK(stops_words(1) == "1 stop");
    CHECK(stops_words(1.02) == "1 stop");
    CHECK(stops_words(0.98) == "1 stop");
    CHECK(stops_words(1.66) == "1⅔ stops");
    CHECK(stops_words(3.534) == "3½ stops");
    CHECK(stops_words(12) == "12 stops");
    CHECK(stops_words(-1.5) == "−1½ stops");
    CHECK(stops_words(0) == "0 stops");
    CHECK(stops_words(-0.01) == "0 stops");
}

// Common practice, no source: fractions with 1 above, decimals from 0.3 s on.
TEST_CASE("shutter times are said as on the dial", "[optics][practice]") {
    CHECK(shutter_words(0.004) == "1/250 s");
    CHECK(shutter_words(1.0 / 8000) == "1/8000 s");
    CHECK(shutter_words(0.25) == "1/4 s");
    CHECK(shutter_words(0.3) == "0.3 s");
    CHECK(shutter_words(0.4) == "0.4 s");
    CHECK(shutter_words(1) == "1 s");
    CHECK(shutter_words(1.3) == "1.3 s");
    CHECK(shutter_words(2.5) == "2.5 s");
    CHECK(shutter_words(30) == "30 s");
    // 1/0.15 is neither 6 nor 7.
    CHECK(shutter_words(0.15) == "0.15 s");
    CHECK(shutter_words(1 / 270.3) == "1/270 s");
}
