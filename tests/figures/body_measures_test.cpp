#include "figures/measures/body_measures.h"

#include "figures/measures/anthropometry.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <initializer_list>
#include <optional>

using namespace backrow::figures;

namespace {

// The survey prints whole millimetres, interpupillary breadth tenths: half a printed digit.
constexpr double half_mm = 0.0005;
constexpr double half_tenth_mm = 0.00005;

bool is_sane(const BodyMeasures& m) {
    const double all[] = {m.stature_m,          m.eye_height_m,        m.head_height_m,
                          m.head_breadth_m,     m.head_length_m,       m.interpupillary_m,
                          m.shoulder_breadth_m, m.bideltoid_breadth_m, m.chest_depth_m,
                          m.sitting_height_m,   m.sitting_eye_height_m};
    for (const double value : all)
        if (!std::isfinite(value) || value <= 0)
            return false;
    return m.eye_height_m < m.stature_m && m.sitting_height_m < m.stature_m &&
           m.interpupillary_m < m.head_breadth_m && m.head_breadth_m < m.bideltoid_breadth_m &&
           m.shoulder_breadth_m < m.bideltoid_breadth_m &&
           m.stature_m - m.head_height_m < m.eye_height_m;
}

// Source: [SORKIN1999], from the abstract: on average men have lost 3 cm by 70 and 5 cm
// by 80, women 5 and 8 cm, counted from 30. Tolerance: the abstract says "about", in whole
// centimetres; the table holds its numbers exactly.
TEST_CASE("grown people lose stature with age as was measured (Sorkin et al. 1999)",
          "[figures][published]") {
    const auto lost_cm = [](Sex sex, double age_years) {
        return 100 * (stature_m_from_age(30, sex) - stature_m_from_age(age_years, sex));
    };
    CHECK(lost_cm(Sex::male, 70) == Approx(3));
    CHECK(lost_cm(Sex::male, 80) == Approx(5));
    CHECK(lost_cm(Sex::female, 70) == Approx(5));
    CHECK(lost_cm(Sex::female, 80) == Approx(8));
    CHECK(lost_cm(Sex::neutral, 70) == Approx(4));
    for (const Sex sex : {Sex::female, Sex::male}) {
        CHECK(lost_cm(sex, 20) == Approx(0).margin(1e-12));
        for (double age = 31; age < 110; ++age)
            CHECK(lost_cm(sex, age) >= lost_cm(sex, age - 1));
        // It accelerates: less in the first half of the forty years than in the second.
        CHECK(lost_cm(sex, 50) < lost_cm(sex, 70) / 2);
    }
}

// [ANSUR2], the percentiles of shoulders and chests of people of median stature.
TEST_CASE("builds lie between the narrowest and the broadest of ten, and move no eye",
          "[figures][property]") {
    for (const Sex sex : {Sex::female, Sex::male}) {
        const BodyMeasures medium = body_measures(stature_m_from_age(30, sex), 30, sex);
        const AdultTable& table = sex == Sex::female ? women : men;
        CHECK(with_physique(medium, Physique::medium) == medium);
        for (const Physique physique : {Physique::slim, Physique::broad, Physique::stout}) {
            const BodyMeasures other = with_physique(medium, physique);
            const bool is_slim = physique == Physique::slim;
            CHECK((other.bideltoid_breadth_m < medium.bideltoid_breadth_m) == is_slim);
            CHECK((other.chest_depth_m < medium.chest_depth_m) == is_slim);
            CHECK(other.bideltoid_breadth_m > table.bideltoid_breadth_m[0]);
            CHECK(other.bideltoid_breadth_m < table.bideltoid_breadth_m[2]);
            CHECK(other.chest_depth_m > table.chest_depth_m[0]);
            CHECK(other.chest_depth_m < table.chest_depth_m[2]);
            CHECK(other.eye_height_m == medium.eye_height_m);
            CHECK(other.stature_m == medium.stature_m);
        }
    }
}

}  // namespace

// Source: [ANSUR2] medians of the public data, 4,082 men.
TEST_CASE("a man of median stature has the median measures of the survey", "[figures][published]") {
    const BodyMeasures m = body_measures(1.755, std::nullopt, Sex::male);
    CHECK(m.age_years == 30);
    CHECK(m.eye_height_m == Approx(1.640).margin(half_mm));
    CHECK(m.head_breadth_m == Approx(0.154).margin(half_mm));
    CHECK(m.head_length_m == Approx(0.200).margin(half_mm));
    CHECK(m.interpupillary_m == Approx(0.0640).margin(half_tenth_mm));
    CHECK(m.shoulder_breadth_m == Approx(0.415).margin(half_mm));
    CHECK(m.bideltoid_breadth_m == Approx(0.509).margin(half_mm));
    CHECK(m.chest_depth_m == Approx(0.253).margin(half_mm));
    CHECK(m.sitting_height_m == Approx(0.918).margin(half_mm));
}

// Source: [ANSUR2] medians of the public data, 1,986 women.
TEST_CASE("a woman of median stature has the median measures of the survey",
          "[figures][published]") {
    const BodyMeasures m = body_measures(1.626, std::nullopt, Sex::female);
    CHECK(m.eye_height_m == Approx(1.517).margin(half_mm));
    CHECK(m.head_breadth_m == Approx(0.147).margin(half_mm));
    CHECK(m.interpupillary_m == Approx(0.0620).margin(half_tenth_mm));
    CHECK(m.sitting_height_m == Approx(0.857).margin(half_mm));
    CHECK(m.sitting_eye_height_m == Approx(0.748).margin(half_mm));
}

// Source: [ANSUR2], 5th and 95th percentiles.
TEST_CASE("short and tall people have the outer percentiles' measures", "[figures][published]") {
    CHECK(body_measures(1.870, std::nullopt, Sex::male).eye_height_m ==
          Approx(1.753).margin(half_mm));
    CHECK(body_measures(1.648, std::nullopt, Sex::male).interpupillary_m ==
          Approx(0.0585).margin(half_tenth_mm));
    CHECK(body_measures(1.740, std::nullopt, Sex::female).sitting_eye_height_m ==
          Approx(0.799).margin(half_mm));
    CHECK(body_measures(1.525, std::nullopt, Sex::female).head_breadth_m ==
          Approx(0.140).margin(half_mm));
}

// Sitting and standing, the eyes are as far below the crown. Four printed rows are compared, each
// rounded to half a millimetre.
TEST_CASE("eyes are as far below the crown sitting as standing", "[figures][property]") {
    for (const Sex sex : {Sex::female, Sex::male, Sex::neutral})
        for (const double stature_m : {1.2, 1.5, 1.626, 1.7, 1.755, 1.9}) {
            const BodyMeasures m = body_measures(stature_m, std::nullopt, sex);
            CHECK(m.stature_m - m.eye_height_m ==
                  Approx(m.sitting_height_m - m.sitting_eye_height_m).margin(4 * half_mm));
        }
}

// Source: [CDC2000] `statage`, P50 at N years and half a month. Tolerance: the printed digit.
TEST_CASE("children have the median stature of the growth charts", "[figures][published]") {
    const double half_month = 1.0 / 24.0;
    const double printed_m = 0.00005;
    const struct {
        double age, boys_m, girls_m;
    } rows[] = {
        {4, 1.0251, 1.0103}, {6, 1.1566, 1.1501}, {8, 1.2812, 1.2783}, {12, 1.4931, 1.5149}};
    for (const auto& row : rows) {
        CAPTURE(row.age);
        CHECK(stature_m_from_age(row.age + half_month, Sex::male) ==
              Approx(row.boys_m).margin(printed_m));
        CHECK(stature_m_from_age(row.age + half_month, Sex::female) ==
              Approx(row.girls_m).margin(printed_m));
        CHECK(stature_m_from_age(row.age + half_month, Sex::neutral) ==
              Approx((row.boys_m + row.girls_m) / 2).margin(printed_m));
    }
    CHECK(stature_m_from_age(14 + half_month, Sex::male) == Approx(1.6414).margin(printed_m));
}

// Between 4 and 12 years the charts' medians are at 6 and 8; a smooth curve through the others
// would pass within their P5–P95 band by far. Here: halfway ages lie between their neighbours.
TEST_CASE("nobody shrinks while growing up", "[figures][property]") {
    for (const Sex sex : {Sex::female, Sex::male, Sex::neutral})
        for (double age = least_age_years; age < 21; age += 0.05) {
            CHECK(stature_m_from_age(age + 0.05, sex) >= stature_m_from_age(age, sex));
            const auto at = [&](double years) {
                return body_measures(stature_m_from_age(years, sex), years, sex);
            };
            CHECK(at(age + 0.05).head_height_m >= at(age).head_height_m - 1e-9);
            CHECK(at(age + 0.05).interpupillary_m >= at(age).interpupillary_m - 1e-9);
        }
}

// A drawing teacher's rule, from memory: five heads and a bit at four, seven and a half grown up.
TEST_CASE("heads go five times into a child of four and seven and a half into an adult",
          "[figures][from-memory]") {
    const auto heads = [](double age) {
        const BodyMeasures m = body_measures(stature_m_from_age(age, Sex::neutral), age);
        return m.stature_m / m.head_height_m;
    };
    CHECK(heads(4) > 4.9);
    CHECK(heads(4) < 5.6);
    CHECK(heads(30) == Approx(7.6).margin(0.15));
    // Girls have nearly stopped growing at sixteen, when jaws have not.
    for (double age = 2; age < 16; age += 0.5)
        CHECK(heads(age + 0.5) > heads(age));
}

TEST_CASE("growing up ends in an adult without a jump", "[figures][property]") {
    const double m = stature_m_from_age(20, Sex::female);
    const BodyMeasures before = body_measures(m, 19.999, Sex::female);
    const BodyMeasures after = body_measures(m, 20.0, Sex::female);
    // A thousandth of a year grows less than a tenth of a millimetre.
    CHECK(before.head_height_m == Approx(after.head_height_m).margin(1e-4));
    CHECK(before.eye_height_m == Approx(after.eye_height_m).margin(1e-4));
    CHECK(before.bideltoid_breadth_m == Approx(after.bideltoid_breadth_m).margin(1e-3));
}

TEST_CASE("without an age, somebody shorter than adults are is the child of that stature",
          "[figures][property]") {
    const BodyMeasures m = body_measures(1.2812, std::nullopt, Sex::male);
    // The chart's row: 8 years and half a month; a printed millimetre is a week and a half of
    // growth.
    CHECK(m.age_years == Approx(8 + 1.0 / 24.0).margin(0.01));
    CHECK(body_measures(1.66, std::nullopt, Sex::male).age_years == 30);
    CHECK(body_measures(1.2812, 45.0, Sex::male).age_years == 45);
}

TEST_CASE("every accepted stature and age has measures of a person", "[figures][property]") {
    for (const Sex sex : {Sex::female, Sex::male, Sex::neutral})
        for (double stature_m = least_stature_m; stature_m <= greatest_stature_m;
             stature_m += 0.1) {
            CAPTURE(stature_m);
            CHECK(is_sane(body_measures(stature_m, std::nullopt, sex)));
            CHECK(body_measures(stature_m, std::nullopt, sex).stature_m == stature_m);
            for (const double age : {2.0, 5.0, 11.0, 17.0, 30.0, 110.0})
                CHECK(is_sane(body_measures(stature_m, age, sex)));
        }
}
