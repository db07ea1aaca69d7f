#pragma once

// How far what least squares found may be off.

#include <span>
#include <utility>
#include <vector>

namespace backrow::optics {

/// Measures about as far from the middle of frames of one f-number: f-number, tenth of the height.
using Ring = std::pair<double, int>;

[[nodiscard]] Ring ring_of(double f_number, double image_height) noexcept;

/// Standard errors of the normal equations. What a model leaves of one place and of its neighbours
/// is alike, so rings are taken for one measure where that makes errors larger (the sandwich of
/// White and of Liang and Zeger, from memory).
///
/// slopes    of what is left: of all measures by the first that is sought, then by the next …
/// left      by the model, of each measure
/// variance  of one measure
/// rings     of each measure
[[nodiscard]] std::vector<double> standard_errors(std::span<const double> slopes,
                                                  std::span<const double> left, double variance,
                                                  const std::vector<Ring>& rings);

}  // namespace backrow::optics
