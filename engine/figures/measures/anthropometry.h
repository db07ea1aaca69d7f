#pragma once

// Published sizes of people, each declared here once, with its source.
//
// [ANSUR2]   Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007
//            (2014); percentiles of the public data, 4,082 men and 1,986 women. Soldiers, not the
//            general public.
// [CDC2000]  CDC growth charts, United States, 2000: table `statage`, medians at the age given.
// [SORKIN1999]  Sorkin, Muller and Andres, American Journal of Epidemiology 150 (1999): abstract.
// [DRILLIS]  Drillis and Contini, Body Segment Parameters (1966), lengths as shares of stature.
// "From memory" marks what was written down without the source at hand.

#include <array>

namespace backrow::figures {

/// The 5th, 50th and 95th percentile of one measure, metres.
using Percentiles = std::array<double, 3>;

/// One sex. A measure is read off at the percentile of the stature.
struct AdultTable {
    Percentiles stature_m;
    Percentiles eye_height_m;  ///< Derived: stature − sitting height + sitting eye height.
    Percentiles head_height_m;
    Percentiles head_breadth_m;
    Percentiles head_length_m;
    Percentiles interpupillary_m;
    Percentiles shoulder_breadth_m;
    Percentiles bideltoid_breadth_m;
    Percentiles chest_depth_m;
    Percentiles sitting_height_m;
    Percentiles sitting_eye_height_m;
};

/// [ANSUR2]. Head height is an estimate: the survey has no menton-vertex, but its vertex-to-eye and
/// menton-to-sellion medians (114 + 123 mm) less the sellion's height above the eye make about 230;
/// the outer percentiles carry the spread of menton-sellion twice over, as the eye lies half way.
/// Sitting eye height is worked back from the standing eye height.
inline constexpr AdultTable men{
    .stature_m = {1.648, 1.755, 1.870},
    .eye_height_m = {1.536, 1.640, 1.753},
    .head_height_m = {0.219, 0.230, 0.241},
    .head_breadth_m = {0.146, 0.154, 0.163},
    .head_length_m = {0.188, 0.200, 0.211},
    .interpupillary_m = {0.0585, 0.0640, 0.0700},
    .shoulder_breadth_m = {0.384, 0.415, 0.447},
    .bideltoid_breadth_m = {0.459, 0.509, 0.567},
    .chest_depth_m = {0.211, 0.253, 0.298},
    .sitting_height_m = {0.860, 0.918, 0.977},
    .sitting_eye_height_m = {0.748, 0.803, 0.860},
};

/// [ANSUR2], head height as above (109 + 113 mm make about 215). Head length, shoulder and
/// bideltoid breadth and chest depth of women are from memory.
inline constexpr AdultTable women{
    .stature_m = {1.525, 1.626, 1.740},
    .eye_height_m = {1.421, 1.517, 1.626},
    .head_height_m = {0.205, 0.215, 0.225},
    .head_breadth_m = {0.140, 0.147, 0.156},
    .head_length_m = {0.177, 0.187, 0.198},
    .interpupillary_m = {0.0555, 0.0620, 0.0675},
    .shoulder_breadth_m = {0.337, 0.365, 0.394},
    .bideltoid_breadth_m = {0.402, 0.449, 0.508},
    .chest_depth_m = {0.203, 0.245, 0.298},
    .sitting_height_m = {0.803, 0.857, 0.912},
    .sitting_eye_height_m = {0.698, 0.748, 0.799},
};

/// A point of a curve over age.
struct AtAge {
    double age_years;
    double value;
};

/// Half a month: the growth tables print their rows for the middle of a month.
inline constexpr double half_month_years = 1.0 / 24.0;

/// Age from which nobody grows.
inline constexpr double grown_up_years = 20.0;

/// Median stature by age, metres. [CDC2000] at 4, 6, 8, 12 and (boys) 14 years; the other ages are
/// [CDC2000] from memory; the last row is the adult median of [ANSUR2], so that growth ends there.
inline constexpr std::array<AtAge, 10> boys_stature_m{{{2.0, 0.8645},
                                                       {4.0 + half_month_years, 1.0251},
                                                       {6.0 + half_month_years, 1.1566},
                                                       {8.0 + half_month_years, 1.2812},
                                                       {10.0 + half_month_years, 1.3870},
                                                       {12.0 + half_month_years, 1.4931},
                                                       {14.0 + half_month_years, 1.6414},
                                                       {16.0 + half_month_years, 1.7290},
                                                       {18.0, 1.7520},
                                                       {grown_up_years, men.stature_m[1]}}};
inline constexpr std::array<AtAge, 10> girls_stature_m{{{2.0, 0.8498},
                                                        {4.0 + half_month_years, 1.0103},
                                                        {6.0 + half_month_years, 1.1501},
                                                        {8.0 + half_month_years, 1.2783},
                                                        {10.0 + half_month_years, 1.3820},
                                                        {12.0 + half_month_years, 1.5149},
                                                        {14.0 + half_month_years, 1.6000},
                                                        {16.0 + half_month_years, 1.6210},
                                                        {18.0, 1.6250},
                                                        {grown_up_years, women.stature_m[1]}}};

/// What grown people have lost of their stature by an age, metres. [SORKIN1999]: from about 30 on
/// and faster with age, on average 3 cm by 70 and 5 cm by 80 in men, 5 and 8 cm in women. Beyond
/// 80, where these numbers end, no more is taken off.
inline constexpr std::array<AtAge, 3> mens_lost_stature_m{{{30, 0}, {70, 0.03}, {80, 0.05}}};
inline constexpr std::array<AtAge, 3> womens_lost_stature_m{{{30, 0}, {70, 0.05}, {80, 0.08}}};

/// Share of its adult size that a part has reached by an age: the head is nearly grown when the
/// legs have hardly begun. All from memory (in the manner of the studies of infants, children and
/// youths of the 1970s); with them a head goes 5.4 times into the stature at four years, 6.2 times
/// at eight and 7.6 times in an adult.
inline constexpr std::array<AtAge, 9> head_height_share{{{2, 0.800},
                                                         {4, 0.855},
                                                         {6, 0.890},
                                                         {8, 0.920},
                                                         {10, 0.940},
                                                         {12, 0.960},
                                                         {14, 0.975},
                                                         {16, 0.990},
                                                         {grown_up_years, 1}}};
inline constexpr std::array<AtAge, 9> head_breadth_share{{{2, 0.890},
                                                          {4, 0.922},
                                                          {6, 0.940},
                                                          {8, 0.954},
                                                          {10, 0.964},
                                                          {12, 0.974},
                                                          {14, 0.983},
                                                          {16, 0.991},
                                                          {grown_up_years, 1}}};
inline constexpr std::array<AtAge, 9> head_length_share{{{2, 0.880},
                                                         {4, 0.915},
                                                         {6, 0.935},
                                                         {8, 0.950},
                                                         {10, 0.962},
                                                         {12, 0.973},
                                                         {14, 0.983},
                                                         {16, 0.991},
                                                         {grown_up_years, 1}}};
inline constexpr std::array<AtAge, 9> interpupillary_share{{{2, 0.740},
                                                            {4, 0.795},
                                                            {6, 0.840},
                                                            {8, 0.875},
                                                            {10, 0.905},
                                                            {12, 0.935},
                                                            {14, 0.962},
                                                            {16, 0.985},
                                                            {grown_up_years, 1}}};
/// How far the eyes lie below the crown, in head heights, against an adult's: a child's brow is
/// high and its jaw small.
inline constexpr std::array<AtAge, 6> eye_depth_growth{
    {{2, 1.15}, {4, 1.12}, {8, 1.07}, {12, 1.035}, {16, 1.01}, {grown_up_years, 1}}};
/// Sitting height as a share of stature, against an adult's.
inline constexpr std::array<AtAge, 8> sitting_growth{{{2, 1.105},
                                                      {4, 1.060},
                                                      {6, 1.035},
                                                      {8, 1.015},
                                                      {10, 1.003},
                                                      {12, 0.996},
                                                      {14, 0.994},
                                                      {grown_up_years, 1}}};
/// Shoulder breadth, bideltoid breadth and chest depth as shares of stature, against an adult's.
inline constexpr std::array<AtAge, 6> girth_growth{
    {{2, 0.98}, {4, 0.95}, {8, 0.93}, {12, 0.94}, {16, 0.98}, {grown_up_years, 1}}};

/// Lengths of the limbs as shares of the adult stature. [DRILLIS], from memory.
inline constexpr double upper_arm_share = 0.186;
inline constexpr double forearm_share = 0.146;
inline constexpr double hand_share = 0.108;
inline constexpr double foot_length_share = 0.152;
/// Knee and ankle above the ground as shares of the hip joint's height. [DRILLIS], from memory.
inline constexpr double knee_share_of_leg = 0.538;
inline constexpr double ankle_share_of_leg = 0.074;

/// The visible iris hardly grows after the second year and differs little between people.
/// 11.7 mm across, from memory.
inline constexpr double iris_diameter_m = 0.0117;

}  // namespace backrow::figures
