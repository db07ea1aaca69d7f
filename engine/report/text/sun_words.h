#pragma once

// What the light does to a group, and what photographers do about it. Common practice, no source.

#include "plan/faces/sun_checks.h"

#include <span>
#include <string>
#include <vector>

namespace backrow::report {

struct LightAdvice {
    std::string what;         ///< "Sun in the eyes: Odile and Bram."
    std::string mend;         ///< What one does about it.
    bool is_caution = false;  ///< Somebody could get hurt.
};

/// Cautions first, then where the light comes from, then what it does to whom.
///
/// faces  of the table that was checked
[[nodiscard]] std::vector<LightAdvice> light_advice(const plan::SunChecks& checks,
                                                    std::span<const plan::Face> faces);

}  // namespace backrow::report
