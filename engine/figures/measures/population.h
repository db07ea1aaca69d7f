#pragma once

// How tall people are when nobody has asked them: the statures of a population, spread evenly.

#include "figures/measures/body_measures.h"

namespace backrow::figures {

/// The stature that this share of grown people do not exceed.
///
///     a normal spread about the median, with the deviation that its outer percentile asks for on
///     either side, so that 0.05, 0.5 and 0.95 give the published numbers
///
/// share    0 … 1, both excluded
/// sex      neutral: the table in the middle of both
/// returns  metres
/// source   [ANSUR2]: soldiers, not the general public
[[nodiscard]] double stature_m_at_share(double share, Sex sex);

/// The number of standard deviations that this share of a normal spread does not exceed.
///
/// share    0 … 1, both excluded
[[nodiscard]] double deviations_at_share(double share);

}  // namespace backrow::figures
