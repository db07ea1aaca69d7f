#include "figures/measures/body_measures.h"

#include "figures/body/smooth_curve.h"
#include "figures/measures/anthropometry.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace backrow::figures {
namespace {

template <std::size_t N>
double at_age(const std::array<AtAge, N>& points, double age_years) {
    std::array<double, N> at{};
    std::array<double, N> value{};
    for (std::size_t i = 0; i < N; ++i) {
        at[i] = points[i].age_years;
        value[i] = points[i].value;
    }
    return SmoothCurve<N>{at, value}.held(age_years);
}

Percentiles mean(const Percentiles& a, const Percentiles& b) {
    return {(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2};
}

AdultTable mean(const AdultTable& a, const AdultTable& b) {
    return {.stature_m = mean(a.stature_m, b.stature_m),
            .eye_height_m = mean(a.eye_height_m, b.eye_height_m),
            .head_height_m = mean(a.head_height_m, b.head_height_m),
            .head_breadth_m = mean(a.head_breadth_m, b.head_breadth_m),
            .head_length_m = mean(a.head_length_m, b.head_length_m),
            .interpupillary_m = mean(a.interpupillary_m, b.interpupillary_m),
            .shoulder_breadth_m = mean(a.shoulder_breadth_m, b.shoulder_breadth_m),
            .bideltoid_breadth_m = mean(a.bideltoid_breadth_m, b.bideltoid_breadth_m),
            .chest_depth_m = mean(a.chest_depth_m, b.chest_depth_m),
            .sitting_height_m = mean(a.sitting_height_m, b.sitting_height_m),
            .sitting_eye_height_m = mean(a.sitting_eye_height_m, b.sitting_eye_height_m)};
}

AdultTable adults(Sex sex) {
    switch (sex) {
    case Sex::female:
        return women;
    case Sex::male:
        return men;
    case Sex::neutral:
        break;
    }
    return mean(men, women);
}

/// Straight between the percentiles; beyond the outer ones, in proportion to the stature.
double read_off(const Percentiles& measure, const Percentiles& stature, double stature_m) {
    if (stature_m <= stature[0])
        return measure[0] * stature_m / stature[0];
    if (stature_m >= stature[2])
        return measure[2] * stature_m / stature[2];
    const std::size_t i = stature_m < stature[1] ? 0 : 1;
    const double t = (stature_m - stature[i]) / (stature[i + 1] - stature[i]);
    return measure[i] + t * (measure[i + 1] - measure[i]);
}

BodyMeasures adult_measures(double stature_m, double age_years, Sex sex) {
    const AdultTable table = adults(sex);
    const auto of = [&](const Percentiles& measure) {
        return read_off(measure, table.stature_m, stature_m);
    };
    return {.stature_m = stature_m,
            .age_years = age_years,
            .sex = sex,
            .eye_height_m = of(table.eye_height_m),
            .head_height_m = of(table.head_height_m),
            .head_breadth_m = of(table.head_breadth_m),
            .head_length_m = of(table.head_length_m),
            .interpupillary_m = of(table.interpupillary_m),
            .shoulder_breadth_m = of(table.shoulder_breadth_m),
            .bideltoid_breadth_m = of(table.bideltoid_breadth_m),
            .chest_depth_m = of(table.chest_depth_m),
            .sitting_height_m = of(table.sitting_height_m),
            .sitting_eye_height_m = of(table.sitting_eye_height_m)};
}

double age_years_from_median_stature(double stature_m, Sex sex) {
    double younger = least_age_years;
    double older = grown_up_years;
    // Forty halvings of eighteen years end far below a second.
    for (int i = 0; i < 40; ++i) {
        const double middle = (younger + older) / 2;
        (stature_m_from_age(middle, sex) < stature_m ? younger : older) = middle;
    }
    return (younger + older) / 2;
}

/// A child is the adult it will grow into (it keeps its place among its peers), each part at the
/// share of its adult size that it has reached by now.
BodyMeasures child_measures(double stature_m, double age_years, Sex sex) {
    const AdultTable table = adults(sex);
    const double among_peers = stature_m / stature_m_from_age(age_years, sex);
    // An impossible pair of age and stature still gets the head of a person.
    const double grown_m = table.stature_m[1] * std::clamp(among_peers, 0.75, 1.25);
    const BodyMeasures grown = adult_measures(grown_m, age_years, sex);
    const double body = stature_m / grown_m;
    const double girth = body * at_age(girth_growth, age_years);

    BodyMeasures child = grown;
    child.stature_m = stature_m;
    child.head_height_m *= at_age(head_height_share, age_years);
    child.head_breadth_m *= at_age(head_breadth_share, age_years);
    child.head_length_m *= at_age(head_length_share, age_years);
    child.interpupillary_m *= at_age(interpupillary_share, age_years);
    child.shoulder_breadth_m *= girth;
    child.bideltoid_breadth_m *= girth;
    child.chest_depth_m *= girth;
    child.sitting_height_m *= body * at_age(sitting_growth, age_years);
    const double eye_below_crown = (grown_m - grown.eye_height_m) / grown.head_height_m *
                                   at_age(eye_depth_growth, age_years) * child.head_height_m;
    child.eye_height_m = stature_m - eye_below_crown;
    child.sitting_eye_height_m = child.sitting_height_m - eye_below_crown;
    return child;
}

}  // namespace

double stature_m_from_age(double age_years, Sex sex) {
    const double woman_m =
        at_age(girls_stature_m, age_years) - at_age(womens_lost_stature_m, age_years);
    const double man_m = at_age(boys_stature_m, age_years) - at_age(mens_lost_stature_m, age_years);
    switch (sex) {
    case Sex::female:
        return woman_m;
    case Sex::male:
        return man_m;
    case Sex::neutral:
        break;
    }
    return (woman_m + man_m) / 2;
}

BodyMeasures with_physique(BodyMeasures measures, Physique physique) noexcept {
    struct Shares {
        double shoulders, bideltoid, chest;
    };
    static constexpr std::array<Shares, 4> shares{
        {{0.97, 0.93, 0.89}, {1, 1, 1}, {1.04, 1.07, 1.06}, {1.01, 1.09, 1.16}}};
    const Shares& by = shares[static_cast<std::size_t>(physique)];
    measures.shoulder_breadth_m *= by.shoulders;
    measures.bideltoid_breadth_m *= by.bideltoid;
    measures.chest_depth_m *= by.chest;
    return measures;
}

BodyMeasures body_measures(double stature_m, std::optional<double> age_years, Sex sex) {
    const double unsaid_adult_years = 30;
    const double age = age_years ? *age_years
                       : stature_m >= adults(sex).stature_m[0]
                           ? unsaid_adult_years
                           : age_years_from_median_stature(stature_m, sex);
    return age < grown_up_years ? child_measures(stature_m, age, sex)
                                : adult_measures(stature_m, age, sex);
}

}  // namespace backrow::figures
