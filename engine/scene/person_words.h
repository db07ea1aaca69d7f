#pragma once

// What may be said about a person: names, and the statures that follow from age and sex. The same
// for what is read from a scene file and for what is about to be written into one.

#include "figures/measures/body_measures.h"

#include <optional>
#include <string>
#include <string_view>

namespace backrow::scene {

/// What is wrong with a name, and how to mend it.
struct NameFault {
    std::string what;
    std::string mend;
};

/// Nothing where the name may stand in a scene: text on one line, up to 60 characters.
[[nodiscard]] std::optional<NameFault> fault_of_name(std::string_view name);

/// The measures of somebody of whom this is known: the stature, the age, or both, of which the age
/// then decides proportions and looks; without a stature the middle one of the age, or of grown
/// people of a sex; without any of these 1.70 m.
[[nodiscard]] figures::BodyMeasures measures_of(std::optional<double> stature_m,
                                                std::optional<double> age_years, figures::Sex sex);

}  // namespace backrow::scene
