#include "figures/measures/population.h"

#include <catch2/catch.hpp>

#include <array>

using Catch::Matchers::WithinAbs;

namespace backrow::figures {

// Source: [ANSUR2], stature of 4,082 men and 1,986 women at the 5th, 50th and 95th percentile.
// Tolerance: the table is printed in millimetres, half a digit.
TEST_CASE("a population spread by shares has the surveyed percentiles of stature (ANSUR II)",
          "[figures][published]") {
    struct Surveyed {
        Sex sex;
        std::array<double, 3> stature_m;
    };
    for (const Surveyed& surveyed : {Surveyed{Sex::male, {1.648, 1.755, 1.870}},
                                     Surveyed{Sex::female, {1.525, 1.626, 1.740}}}) {
        CHECK_THAT(stature_m_at_share(0.05, surveyed.sex),
                   WithinAbs(surveyed.stature_m[0], 0.0005));
        CHECK_THAT(stature_m_at_share(0.50, surveyed.sex),
                   WithinAbs(surveyed.stature_m[1], 0.0005));
        CHECK_THAT(stature_m_at_share(0.95, surveyed.sex),
                   WithinAbs(surveyed.stature_m[2], 0.0005));
    }
}

// The standard normal quantiles, from memory. Tolerance: half their last digit.
TEST_CASE("shares and deviations are those of the normal spread", "[figures][from-memory]") {
    CHECK_THAT(deviations_at_share(0.5), WithinAbs(0, 1e-12));
    CHECK_THAT(deviations_at_share(0.95), WithinAbs(1.6449, 0.00005));
    CHECK_THAT(deviations_at_share(0.025), WithinAbs(-1.9600, 0.00005));
}

TEST_CASE("a larger share of people is taller", "[figures][property]") {
    for (const Sex sex : {Sex::neutral, Sex::female, Sex::male})
        for (int percent = 2; percent < 100; ++percent)
            CHECK(stature_m_at_share(percent / 100.0, sex) >
                  stature_m_at_share((percent - 1) / 100.0, sex));
}

}  // namespace backrow::figures
