#pragma once

// What people take of the ground, seen from above: for the risers and seats under them.

#include "scene/scene.h"

#include "setting/surroundings.h"

#include <limits>
#include <vector>

namespace backrow::scene {

/// A rectangle on the ground, in the mark's words.
struct Patch {
    double left_m = std::numeric_limits<double>::infinity();
    double right_m = -std::numeric_limits<double>::infinity();
    double near_m = std::numeric_limits<double>::infinity();
    double far_m = -std::numeric_limits<double>::infinity();

    [[nodiscard]] bool empty() const { return left_m >= right_m || near_m >= far_m; }
};

/// The smallest that holds both.
[[nodiscard]] Patch around(const Patch& a, const Patch& b);

/// Whether one lies wholly to the left of the other.
[[nodiscard]] bool side_by_side(const Patch& a, const Patch& b);

[[nodiscard]] bool overlap(const Patch& a, const Patch& b);

/// The shadow, straight down, of those parts of a body whose middle line lies below a height; empty
/// where there is none.
[[nodiscard]] Patch shadow_below(const Person& person, double height_m);

/// Whether feet at these heights stand on one level, to a millimetre.
[[nodiscard]] bool on_one_level(double a_m, double b_m);

/// How far a riser goes on to the next row behind; one farther away has a riser of its own.
/// Carpentry, by eye.
inline constexpr double longest_riser_m = 1.50;

/// People of one row, from picture left to right; never empty.
using RowOfPeople = std::vector<const Person*>;

/// Every row in the order of their numbers, without people placed alone.
[[nodiscard]] std::vector<RowOfPeople> rows_of(const std::vector<Person>& people);

/// A block from the ground at the mark up to this height.
[[nodiscard]] setting::Block block_on(const Patch& patch, double top_m);

}  // namespace backrow::scene
