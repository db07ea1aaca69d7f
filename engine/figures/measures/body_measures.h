#pragma once

// Body measures from stature and age, out of published tables.

#include <optional>

namespace backrow::figures {

enum class Sex { neutral, female, male };
enum class Physique { slim, medium, broad, stout };

/// All lengths in metres, standing straight unless said.
struct BodyMeasures {
    double stature_m = 0;
    double age_years = 0;  ///< 30 for an adult of no stated age.
    Sex sex = Sex::neutral;
    double eye_height_m = 0;   ///< Ground to the corner of the eye.
    double head_height_m = 0;  ///< Chin (menton) to crown (vertex).
    double head_breadth_m = 0;
    double head_length_m = 0;  ///< Brow (glabella) to the back of the head.
    double interpupillary_m = 0;
    double shoulder_breadth_m = 0;  ///< Biacromial.
    double bideltoid_breadth_m = 0;
    double chest_depth_m = 0;
    double sitting_height_m = 0;  ///< Seat to crown.
    double sitting_eye_height_m = 0;

    bool operator==(const BodyMeasures&) const = default;
};

/// Statures accepted: a new walker to the tallest person on record, with room.
inline constexpr double least_stature_m = 0.60;
inline constexpr double greatest_stature_m = 2.60;
/// Ages accepted by the growth tables; from the last on, people are adults.
inline constexpr double least_age_years = 2.0;
inline constexpr double greatest_age_years = 110.0;

/// Median stature for an age: growth, and what is lost again from about 30 on. age_years within the
/// limits above.
[[nodiscard]] double stature_m_from_age(double age_years, Sex sex);

/// Measures of a person of this stature, with the proportions of their age; without an age, that of
/// an adult, or for statures under an adult's 5th percentile the age at which the stature is the
/// median.
[[nodiscard]] BodyMeasures body_measures(double stature_m, std::optional<double> age_years,
                                         Sex sex = Sex::neutral);

/// The same person slimmer, broader or stouter: shoulders and chest, from which arms and legs take
/// their girth. By eye, between the 5th and the 95th percentile of [ANSUR2] for its median. Nothing
/// that decides where the eyes are changes.
[[nodiscard]] BodyMeasures with_physique(BodyMeasures measures, Physique physique) noexcept;

}  // namespace backrow::figures
